import type { BeatPlan, PlannedBeat, Wave } from '../synth/beat-plan.js';
import { EDGE_IN_WIDTHS } from '../synth/truth.js';

/** s, in which the sum of T and P is looked over. */
const STEP = 0.001;
/** Of half the length of T. */
const NEAR = 0.5;
/** Of the height of P: so deep must the trace dip between it and T for the eye to part them. */
const NOTCH = 0.1;

type Covers = (peak: number, p: Wave, beat: PlannedBeat) => boolean;

/**
 * Share of the P waves of a plan, conducted or not, that the eye does not find: those that touch a QRS, and those that
 * make one summit with a T. 0 where there are none.
 */
export const coveredShare = (plan: BeatPlan): number =>
  shareOf(plan, (peak, p, beat) => touchesQrs(peak, p, beat) || meltsIntoT(peak, p, beat));

/**
 * Share of those that the eye does not find, or that it may as well take for the second summit, or the second phase, of a
 * notched or biphasic T, as they begin before T is over. T of a healthy dog may be either (common practice).
 */
export const coveredOrOnTShare = (plan: BeatPlan): number =>
  shareOf(
    plan,
    (peak, p, beat) =>
      touchesQrs(peak, p, beat) || meltsIntoT(peak, p, beat) || beginsOnT(peak, p, beat),
  );

function shareOf({ beats, lonePWaves }: BeatPlan, covers: Covers): number {
  const waves = [
    ...beats.flatMap(({ time, P }) => (P ? [{ peak: time + P.centre, wave: P }] : [])),
    ...lonePWaves.map(({ time, wave }) => ({ peak: time + wave.centre, wave })),
  ];
  const covered = waves.filter(({ peak, wave }) => beats.some((beat) => covers(peak, wave, beat)));
  return waves.length > 0 ? covered.length / waves.length : 0;
}

function beginsOnT(peak: number, p: Wave, { time, T }: PlannedBeat): boolean {
  if (!T) return false;
  const onset = peak - EDGE_IN_WIDTHS * p.rise;
  const summit = time + T.centre;
  return onset > summit && onset < summit + EDGE_IN_WIDTHS * T.fall;
}

function touchesQrs(peak: number, p: Wave, { time, Q, R, S }: PlannedBeat): boolean {
  const parts = [Q, R, S].flatMap((wave) => wave ?? []);
  const onset = Math.min(...parts.map(({ centre, rise }) => centre - EDGE_IN_WIDTHS * rise));
  const end = Math.max(...parts.map(({ centre, fall }) => centre + EDGE_IN_WIDTHS * fall));
  return (
    peak - EDGE_IN_WIDTHS * p.rise < time + end && peak + EDGE_IN_WIDTHS * p.fall > time + onset
  );
}

/**
 * Whether a P on a T makes one wave with it: near its summit whatever it does to its shape, as nobody knows the shape of
 * that T by itself; farther off where no dip of the trace parts the two.
 */
function meltsIntoT(peak: number, p: Wave, { time, T }: PlannedBeat): boolean {
  if (!T) return false;
  const summit = time + T.centre;
  const half = (EDGE_IN_WIDTHS * (T.rise + T.fall)) / 2;
  if (Math.abs(peak - summit) < NEAR * half) return true;
  if (p.amplitude * T.amplitude < 0) return false;
  if (peak < summit - EDGE_IN_WIDTHS * T.rise || peak > summit + EDGE_IN_WIDTHS * T.fall)
    return false;
  const way = Math.sign(p.amplitude);
  const at = (instant: number): number =>
    way * (valueAt(instant - summit, T) + valueAt(instant - peak, p));
  const [from, to] = [Math.min(peak, summit), Math.max(peak, summit)];
  let lowest = Number.POSITIVE_INFINITY;
  for (let instant = from; instant <= to; instant += STEP) lowest = Math.min(lowest, at(instant));
  return Math.min(at(peak), at(summit)) - lowest < NOTCH * Math.abs(p.amplitude);
}

function valueAt(away: number, { amplitude, rise, fall }: Wave): number {
  const widths = away / (away < 0 ? rise : fall);
  return amplitude * Math.exp(-0.5 * widths * widths);
}
