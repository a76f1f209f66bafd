import { quantile } from '../filter/spread.js';
import { type Reason, reason } from '../reason.js';
import type { Channel } from '../waveform.js';
import type { Pulse } from './pulse.js';
import { type PulseRun, pulseRuns } from './pulse-runs.js';
import { smoothed, type Upstroke, upstrokes } from './upstrokes.js';

/** mmHg in each unit that a pressure channel may have. NIST Special Publication 811 (2008), appendix B.8. */
const UNITS: Readonly<Record<string, number>> = { mmHg: 1, kPa: 1000 / 133.3224 };
const IS_ARTERIAL = /\b(art|abp|ibp|p?ao)\b|arter|aort|blood.?press|\bbp\b/i;
const IS_OTHER = /co2|capno|cvp|venous|central|airway|paw|pulm|intracran|\bicp\b|bladder/i;
/** A displayed trend has no pulse in it, Hz. */
const SLOWEST_SAMPLING = 25;

/** Whether a channel is arterial pressure, by its unit and label, sampled often enough to show a pulse. */
export const isArterialPressure = ({ label, unit, samplingRate }: Channel): boolean =>
  Object.hasOwn(UNITS, unit) &&
  IS_ARTERIAL.test(label) &&
  !IS_OTHER.test(label) &&
  samplingRate >= SLOWEST_SAMPLING;

// Where nothing else is said, the constants are choices of the method, made by trial on generated waves: not clinical numbers.

const SMOOTH = 0.04;
/** A smaller rise is a breath, a drift or the recorder's noise, mmHg. */
const LEAST_PULSE = 5;
/** The second wave of a beat stays under this share of the first. */
const SECOND_WAVE = 0.35;
/** A shorter rest may be a pause between two beats, s. */
const LASTING = 3;
/** After an upstroke its own wave dies away within this, s. */
const OWN_WAVE = 0.5;
/** A pulse is missed when this many usual intervals, and this long, have gone by without one, s. */
const MISSED = 1.5;
const MISSED_AFTER = 1;

/**
 * When the heart stops, arterial pressure runs off through the small vessels over seconds, and comes to rest at the
 * filling pressure of the circulation, about 7 to 15 mmHg (from memory, unverified). A line that came off falls at once;
 * one opened to air shows zero; a clotted or damped one stays near the mean.
 */
const RUN_OFF = {
  /** Share of the diastolic pressure before, that is left at the end at most. */
  atMost: 0.75,
  /** mmHg. */
  atLeast: 3,
  /** Share of that diastolic pressure, that is lost within `within` s at most. */
  atOnce: 0.35,
  within: 0.25,
};

/** What an arterial pressure channel says of the pulse. */
export function pressurePulses(channel: Channel): Pulse[] {
  const { samplingRate, label } = channel;
  const factor = UNITS[channel.unit] ?? 1;
  const wave = smoothed(
    channel.samples.map((value) => value * factor),
    samplingRate,
    SMOOTH,
  );
  const all = upstrokes(wave, samplingRate, LEAST_PULSE);
  const usual = quantile(
    all.map(({ low, high }) => high - low),
    0.75,
  );
  const main = all.filter(({ low, high }) => high - low >= SECOND_WAVE * usual);
  const runs = pulseRuns(main);
  return runs.flatMap((run, i) => [
    {
      from: run.from,
      to: run.to,
      pulse: 'present' as const,
      holds: 'throughout' as const,
      because: [
        reason('pressure pulses', {
          label,
          count: run.count,
          from: run.from,
          to: run.to,
          systolic: run.high,
          diastolic: run.low,
        }),
      ],
    },
    ...restAfter(run, runs[i + 1]?.from, all, wave, samplingRate, label),
  ]);
}

/** What follows a run of pulses until the next upstroke, gap or end. */
function restAfter(
  run: PulseRun,
  nextRun: number | undefined,
  all: readonly Upstroke[],
  wave: Float64Array,
  samplingRate: number,
  label: string,
): Pulse[] {
  const first = Math.round((run.to + OWN_WAVE) * samplingRate);
  const gap = wave.findIndex((value, i) => i >= first && Number.isNaN(value));
  const stray = all.find(({ time }) => time > run.to + OWN_WAVE)?.time;
  const until = Math.min(
    nextRun ?? Number.POSITIVE_INFINITY,
    (gap < 0 ? wave.length : gap) / samplingRate,
  );
  const to = Math.min(stray ?? until, until);
  if (until - run.to < LASTING) return [];
  const from = run.to + Math.max(MISSED_AFTER, MISSED * run.interval);
  const at = run.to;
  const cannotTell = (because: Reason): Pulse[] => [
    { from, to: until, pulse: 'cannot tell', holds: 'throughout', because: [because] },
  ];
  if (to - run.to < LASTING) return cannotTell(reason('pressure is disturbed', { label, at }));
  const last = Math.floor(to * samplingRate);
  const rest = wave.subarray(first, last);
  const end = quantile(wave.subarray(Math.max(first, last - Math.round(samplingRate)), last), 0.5);
  if (fallsAtOnce(rest, samplingRate, run.low)) {
    return cannotTell(reason('pressure falls at once', { label, at, end }));
  }
  if (rest.some((value) => value > run.high)) {
    return cannotTell(reason('pressure is flushed', { label, at }));
  }
  if (end > RUN_OFF.atMost * run.low) {
    return cannotTell(reason('pressure is blocked', { label, at, end }));
  }
  if (end < RUN_OFF.atLeast) {
    return cannotTell(reason('pressure is open to air', { label, at, end }));
  }
  return [
    {
      from,
      to,
      pulse: 'absent',
      holds: 'throughout',
      because: [reason('pressure runs off', { label, at, diastolic: run.low, end, by: to })],
    },
  ];
}

function fallsAtOnce(rest: Float64Array, samplingRate: number, diastolic: number): boolean {
  const step = Math.max(1, Math.round(RUN_OFF.within * samplingRate));
  return rest.some((value, i) => value - (rest[i + step] ?? value) > RUN_OFF.atOnce * diastolic);
}
