import { medianOfFinite, quantileOfFinite } from '../filter/order-statistics.js';
import { isLeadII, leadNamed } from '../lead-name.js';
import type { BeatWaves, Patient, Wave } from '../marked-beat.js';
import type { Channel } from '../waveform.js';
import { axisDegrees, type FrontalVector, frontalVector, type LimbPair } from './axis.js';
import { heightOf, netArea, restBefore, rHeight, stDeviation } from './lead-voltage.js';
import type { Measurement, Unit, Unmeasured, Verdict } from './measurement.js';
import { qtcFridericia, qtcVanDeWater } from './qtc.js';
import { type Range, type Ranged, rangeOf } from './ranges.js';

/** All measures of a strip, by name. */
export interface Measurements {
  readonly pDuration: Measurement;
  readonly pHeight: Measurement;
  readonly pr: Measurement;
  readonly qrs: Measurement;
  readonly rHeight: Measurement;
  readonly qt: Measurement;
  readonly qtcFridericia: Measurement;
  readonly qtcVanDeWater: Measurement;
  /** 15 to 25 ms after the end of the QRS, see `stDeviation`. */
  readonly st: Measurement;
  readonly tHeight: Measurement;
  /** Size of T over height of R, whichever way T points. */
  readonly tToR: Measurement;
  /** From net QRS areas in lead I and one of aVF, II and III, in this order. */
  readonly axis: Measurement;
}

/** Waves marked with less confidence are not measured. A choice of the method: not a clinical number. */
export const SURE_ENOUGH = 0.5;
/** A median of fewer beats is no measurement. */
const fewest = 3;
/** Between neighbours that are this many usual intervals apart a beat is missing. */
const skipped = 1.5;
/** A QRS whose net area is a smaller share of its whole has no main direction. */
const leastNet = 0.1;

/**
 * Durations, heights and the axis over the given beats, which should be of one kind (an early wide
 * beat has no place among sinus beats). `leads` in mV, beginning when the beats' times do, NaN where
 * they cannot be read. Heights are read on lead II, or the first lead where there is no lead II; only
 * lead II is judged. Ranges are for awake animals.
 */
export function measure(
  beats: readonly BeatWaves[],
  leads: readonly Channel[],
  patient: Patient,
): Measurements {
  const lead = leadNamed(leads, 'II') ?? leads[0] ?? null;
  const label = lead && { label: lead.label, isJudged: isLeadII(lead) };
  const judge = judgeFor(patient);
  const seen = seenOf(beats, lead);
  const heightsOfR = each(heightOfR, seen);
  const heightsOfT = each(heightOfT, seen);
  const whyNot = {
    p: whyNo(beats.map(pOf)),
    qrs: whyNo(beats.map(qrsOf)),
    t: whyNo(beats.map(tOf)),
  };
  return {
    pDuration: judge('P duration', each(pDuration, seen), 's', whyNot.p),
    pHeight: judge('P height', each(pHeight, seen), 'mV', whyNot.p, label),
    pr: judge('PR interval', each(pr, seen), 's', whyNot.p),
    qrs: judge('QRS duration', each(qrsDuration, seen), 's', whyNot.qrs),
    rHeight: judge('R height', heightsOfR, 'mV', whyNot.qrs, label),
    qt: judge('QT interval', each(qtInterval, seen), 's', whyNot.t),
    qtcFridericia: judge(null, each(fridericia, seen), 's', whyNot.t),
    qtcVanDeWater:
      patient.species === 'dog'
        ? judge(null, each(vanDeWater, seen), 's', whyNot.t)
        : unmeasured('s', 'the formula is for dogs'),
    st: judge('ST deviation', each(st, seen), 'mV', whyNot.qrs, label),
    tHeight: judge('T height', heightsOfT, 'mV', whyNot.t, label),
    tToR: judge('T to R', sharesOf(heightsOfR, heightsOfT), 'share of R', whyNot.t, label),
    axis: axisOver(seen.qrs, leads, patient, whyNot.qrs),
  };
}

/** The waves that are sure enough, one a beat; the time from the beat before, s; and the lead whose heights are told. */
interface Seen {
  readonly beats: readonly BeatWaves[];
  readonly p: readonly (Wave | null)[];
  readonly qrs: readonly (Wave | null)[];
  readonly t: readonly (Wave | null)[];
  readonly rr: readonly number[];
  readonly lead: Channel | null;
}

const pOf = ({ p }: BeatWaves): Wave | null => p;
const qrsOf = ({ qrs }: BeatWaves): Wave | null => qrs;
const tOf = ({ t }: BeatWaves): Wave | null => t;

const seenOf = (beats: readonly BeatWaves[], lead: Channel | null): Seen => ({
  beats,
  p: beats.map(pOf).map(sure),
  qrs: beats.map(qrsOf).map(sure),
  t: beats.map(tOf).map(sure),
  rr: previousIntervals(beats),
  lead,
});

/** A measure of one beat; NaN, or nothing, where it has none. */
type OfBeat = (seen: Seen, k: number) => number | null | undefined;

function each(ofBeat: OfBeat, seen: Seen): number[] {
  const out: number[] = [];
  for (let k = 0; k < seen.beats.length; k++) out.push(ofBeat(seen, k) ?? Number.NaN);
  return out;
}

/** Sizes as shares of others; a height of 0 compares with nothing. */
function sharesOf(whole: readonly number[], parts: readonly number[]): number[] {
  const out: number[] = [];
  for (let k = 0; k < whole.length; k++) out.push(Math.abs(parts[k]!) / (whole[k]! || Number.NaN));
  return out;
}

const pDuration: OfBeat = ({ p }, k) => p[k] && p[k].end - p[k].onset;
const pHeight: OfBeat = ({ lead, p }, k) =>
  lead && p[k] && heightOf(lead, p[k], restBefore(lead, p[k].onset));
const pr: OfBeat = ({ p, qrs }, k) => p[k] && qrs[k] && qrs[k].onset - p[k].onset;
const qrsDuration: OfBeat = ({ qrs }, k) => qrs[k] && qrs[k].end - qrs[k].onset;
const heightOfR: OfBeat = ({ lead, qrs }, k) => lead && qrs[k] && rHeight(lead, qrs[k]);
const heightOfT: OfBeat = ({ lead, qrs, t }, k) =>
  lead && qrs[k] && t[k] && heightOf(lead, t[k], restBefore(lead, qrs[k].onset));
const st: OfBeat = ({ lead, beats, qrs, t }, k) =>
  lead && qrs[k] && stDeviation(lead, { ...beats[k]!, t: t[k] ?? null });
const qtInterval: OfBeat = ({ qrs, t }, k) => qrs[k] && t[k] && t[k].end - qrs[k].onset;
const fridericia: OfBeat = (seen, k) => corrected(seen, k, qtcFridericia);
const vanDeWater: OfBeat = (seen, k) => corrected(seen, k, qtcVanDeWater);

function corrected(
  seen: Seen,
  k: number,
  formula: (qt: number, rr: number) => number,
): number | null {
  const qt = qtInterval(seen, k) ?? null;
  return qt === null ? null : formula(qt, seen.rr[k]!);
}

const sure = (wave: Wave | null): Wave | null =>
  wave && wave.confidence >= SURE_ENOUGH ? wave : null;

function whyNo(waves: readonly (Wave | null)[]): Unmeasured {
  if (waves.length < fewest) return 'too few beats';
  let seen = 0;
  let clear = 0;
  for (const wave of waves) {
    if (wave) seen += 1;
    if (sure(wave)) clear += 1;
  }
  if (seen === 0) return 'no beat shows this wave';
  return clear < fewest && seen >= fewest ? 'too noisy' : 'too few beats';
}

/** Time from the beat before, NaN for the first and where a beat is missing between. */
function previousIntervals(beats: readonly BeatWaves[]): number[] {
  const all: number[] = [];
  for (let k = 0; k < beats.length; k++) {
    all.push(k === 0 ? Number.NaN : beats[k]!.time - beats[k - 1]!.time);
  }
  const most = skipped * medianOfFinite(all);
  for (let k = 0; k < all.length; k++) if (!(all[k]! <= most)) all[k] = Number.NaN;
  return all;
}

interface ReadOn {
  readonly label: string;
  readonly isJudged: boolean;
}

const judgeFor =
  (patient: Patient) =>
  (
    what: Ranged | null,
    values: readonly number[],
    unit: Unit,
    because: Unmeasured,
    on: ReadOn | null = null,
  ): Measurement => {
    const finite = finiteOf(values);
    if (finite.length < fewest) {
      return { ...unmeasured(unit, because), count: finite.length, lead: on?.label ?? null };
    }
    const value = medianOfFinite(finite);
    const range = what && (on === null || on.isJudged) ? rangeOf(what, patient) : null;
    // The height of a T that points down is as much a height.
    const judged = what === 'T height' ? Math.abs(value) : value;
    return {
      unit,
      value,
      middleHalf: { from: quantileOfFinite(finite, 0.25), to: quantileOfFinite(finite, 0.75) },
      count: finite.length,
      because: null,
      lead: on?.label ?? null,
      verdict: verdictOn(judged, unit, range),
      range,
    };
  };

function finiteOf(values: readonly number[]): number[] {
  const finite: number[] = [];
  for (let k = 0; k < values.length; k++) if (Number.isFinite(values[k])) finite.push(values[k]!);
  return finite;
}

function unmeasured(unit: Unit, because: Unmeasured): Measurement {
  return {
    unit,
    value: null,
    middleHalf: null,
    count: 0,
    because,
    lead: null,
    verdict: 'no range',
    range: null,
  };
}

/**
 * A limit is passed by more than this, never by less: the published limits are told to 0.01 s and 0.1 mV, a paper strip at
 * 50 mm/s is read to about a quarter of a 0.02 s box and a tenth of a millimetre of height: common practice. That no less may pass a limit is our own choice.
 */
export const TOLERANCE: Readonly<Record<Unit, number>> = {
  s: 0.005,
  mV: 0.01,
  'share of R': 0.005,
  degrees: 0.5,
};

function verdictOn(value: number, unit: Unit, range: Range | null): Verdict {
  if (range === null) return 'no range';
  if (range.low !== null && value < range.low - TOLERANCE[unit]) return 'below';
  if (range.high !== null && value > range.high + TOLERANCE[unit]) return 'above';
  return 'within';
}

function axisOver(
  qrs: readonly (Wave | null)[],
  leads: readonly Channel[],
  patient: Patient,
  because: Unmeasured,
): Measurement {
  const first = leadNamed(leads, 'I');
  const name = (['aVF', 'II', 'III'] as const).find((other) => leadNamed(leads, other));
  if (!first || !name) return unmeasured('degrees', 'needs lead I and one of II, III and aVF');
  const second = leadNamed(leads, name)!;
  const vectors = qrs.flatMap((wave) => (wave ? vectorOf(wave, first, second, name) : []));
  if (vectors.length < fewest) return { ...unmeasured('degrees', because), count: vectors.length };
  const middle = {
    left: medianOfFinite(vectors.map(({ left }) => left)),
    down: medianOfFinite(vectors.map(({ down }) => down)),
  };
  const whole = medianOfFinite(
    qrs.map((wave) => (wave ? wholeArea(wave, first) + wholeArea(wave, second) : Number.NaN)),
  );
  if (Math.hypot(middle.left, middle.down) < leastNet * whole) {
    return { ...unmeasured('degrees', 'no main direction'), count: vectors.length };
  }
  const value = axisDegrees(middle);
  // Measured from the middle direction, so that -179 and 179 degrees are 2 apart.
  const away = vectors.map((vector) => ((axisDegrees(vector) - value + 540) % 360) - 180);
  const range = rangeOf('electrical axis', patient);
  return {
    unit: 'degrees',
    value,
    middleHalf: {
      from: value + quantileOfFinite(away, 0.25),
      to: value + quantileOfFinite(away, 0.75),
    },
    count: vectors.length,
    because: null,
    lead: `${first.label} and ${second.label}`,
    verdict: verdictOn(value, 'degrees', range),
    range,
  };
}

function vectorOf(
  wave: Wave,
  first: Channel,
  second: Channel,
  lead: LimbPair['lead'],
): FrontalVector[] {
  const vector = frontalVector({ I: netArea(first, wave), other: netArea(second, wave), lead });
  return Number.isFinite(vector.left + vector.down) ? [vector] : [];
}

/** All of the QRS area, up and down parts alike, mV s. */
function wholeArea(wave: Wave, lead: Channel): number {
  const { samples, samplingRate } = lead;
  const baseline = restBefore(lead, wave.onset);
  let sum = 0;
  const last = Math.min(samples.length - 1, Math.round(wave.end * samplingRate));
  for (let i = Math.max(0, Math.round(wave.onset * samplingRate)); i <= last; i++) {
    sum += Math.abs(samples[i]! - baseline);
  }
  return sum / samplingRate;
}
