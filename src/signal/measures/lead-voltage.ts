import type { BeatWaves, Wave } from '../marked-beat.js';
import type { Channel } from '../waveform.js';

/** The trace is at rest for this long before a wave begins, up to this shortly before; in s. */
const rest = { from: 0.014, to: 0.004 };
/** A tip is read as the mean over this much to either side, so that hum and muscle count less; in s. */
const tip = 0.003;

/** Mean of the lead from time to time (s), mV; NaN where it cannot be read. */
function meanVoltage({ samples, samplingRate }: Channel, from: number, to: number): number {
  const first = Math.max(0, Math.round(from * samplingRate));
  const last = Math.min(samples.length - 1, Math.max(first, Math.round(to * samplingRate)));
  let sum = 0;
  for (let i = first; i <= last; i++) sum += samples[i]!;
  return sum / (last - first + 1);
}

/** The baseline just before a wave. */
export const restBefore = (lead: Channel, onset: number): number =>
  meanVoltage(lead, onset - rest.from, onset - rest.to);

/** Height of a P or T above the given baseline, negative where it points down. */
export const heightOf = (lead: Channel, wave: Wave, baseline: number): number =>
  meanVoltage(lead, wave.peak - tip, wave.peak + tip) - baseline;

/** The highest point of the QRS above the baseline before it: 0 where it only points down. */
export function rHeight(lead: Channel, qrs: Wave): number {
  const { samples, samplingRate } = lead;
  let highest = Number.NEGATIVE_INFINITY;
  const last = Math.min(samples.length - 1, Math.round(qrs.end * samplingRate));
  for (let i = Math.max(0, Math.round(qrs.onset * samplingRate)); i <= last; i++) {
    if (Number.isNaN(samples[i])) return Number.NaN;
    if (samples[i]! > highest) highest = samples[i]!;
  }
  return Math.max(0, highest - restBefore(lead, qrs.onset));
}

/** The net area of the QRS, its up parts less its down parts: mean voltage times length, mV s. */
export function netArea(lead: Channel, qrs: Wave): number {
  const level = meanVoltage(lead, qrs.onset, qrs.end) - restBefore(lead, qrs.onset);
  return level * (qrs.end - qrs.onset);
}

/** After the end of the QRS, over this long, unless T begins sooner; in s. */
const st = { after: 0.015, for: 0.01 };

/**
 * ST deviation: the mean from 15 to 25 ms after the end of the QRS, against the rest before the QRS,
 * in mV. The place usual in people, 60 to 80 ms after it (from memory,
 * unverified), lies on the T wave of a dog or cat. Where T begins
 * sooner it is moved to end at the onset of T; NaN where no 5 ms lie between QRS and T.
 */
export function stDeviation(lead: Channel, { qrs, t }: BeatWaves): number {
  if (!qrs) return Number.NaN;
  const to = Math.min(qrs.end + st.after + st.for, t?.onset ?? Number.POSITIVE_INFINITY);
  const from = to - st.for;
  if (to - qrs.end < 0.005) return Number.NaN;
  return meanVoltage(lead, Math.max(from, qrs.end), to) - restBefore(lead, qrs.onset);
}
