import { medianOfFinite } from '../filter/order-statistics.js';
import { reason } from '../reason.js';
import type { Channel } from '../waveform.js';
import type { Breaths } from './breaths.js';
import { followShare, withoutTrend } from './follow.js';
import { Phases } from './phases.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Search range of the breath, s: 60 to 5 breaths/min. */
const SHORTEST = 1;
const LONGEST = 12;

/** Both traces of the breath must be at least this clear, and one of them this clear. Our own choice. */
const EITHER = 0.25;
const CLEARER = 0.5;

/** A breath found as one steady pace is not followed further than this, s. */
const LONGEST_FOLLOWED = 180;

/** Fewer beats than this make a period out of noise. */
const FEWEST_BEATS = 20;

/**
 * Breaths read from the ECG itself. Breathing moves the electrodes about the heart and turns its axis
 * (Zhao, Reisman, Findley 1994, doi 10.1109/IEMBS.1994.412074): the baseline wanders and R grows and
 * shrinks with each breath. A period is told only where both show it. Whether R is tallest in or out
 * of inspiration differs by lead, so the phase stays unknown.
 */
export function ecgBreaths(
  lead: Channel,
  beats: readonly { readonly time: number }[],
): Breaths | null {
  const end = (beats[0]?.time ?? 0) + LONGEST_FOLLOWED;
  const seen: Seen[] = [];
  for (let i = 1; i < beats.length && beats[i]!.time <= end; i += 1) {
    const beat = seenAt(lead, beats[i]!.time, beats[i - 1]!.time);
    if (beat) seen.push(beat);
  }
  const first = seen[0];
  const last = seen.at(-1);
  if (!first || !last || seen.length < FEWEST_BEATS) return null;
  const times = Float64Array.from(seen, ({ time }) => time);
  const heights = withoutTrend(
    Float64Array.from(seen, ({ height }) => height),
    times,
  );
  const baselines = withoutTrend(
    Float64Array.from(seen, ({ baseline }) => baseline),
    times,
  );
  const span = last.time - first.time;
  const shortest = Math.max(SHORTEST, (2 * span) / (seen.length - 1));
  const longest = Math.min(LONGEST, span / 4);
  const best = clearest([heights, baselines], times, span, shortest, longest);
  if (!best) return null;
  const start = Math.ceil(first.time / best.period) * best.period;
  const count = Math.floor((last.time - start) / best.period) + 1;
  return {
    times: Array.from({ length: count }, (_, i) => start + i * best.period),
    period: best.period,
    source: 'ecg',
    fromInspiration: false,
    confidence: 0.4,
    because: reason('breaths of the ECG', { label: lead.label, rate: 60 / best.period }),
  };
}

interface Seen {
  readonly time: number;
  /** R against the baseline, mV. */
  readonly height: number;
  readonly baseline: number;
}

/** Baseline is the median between the last T and the QRS, where P takes up less than half. */
function seenAt(lead: Channel, time: number, previous: number): Seen | null {
  const rr = time - previous;
  const before = readBetween(lead, time - 0.3 * Math.min(rr, 1), time - 0.04);
  const peak = readBetween(lead, time - 0.02, time + 0.02);
  if (before.length === 0 || peak.length === 0) return null;
  const baseline = medianOfFinite(before);
  let height = peak[0]! - baseline;
  for (const value of peak) {
    if (Math.abs(value - baseline) > Math.abs(height)) height = value - baseline;
  }
  return { time, baseline, height };
}

/** The samples from `from` to `to` (s), without those that are missing. */
function readBetween({ samples, samplingRate }: Channel, from: number, to: number): number[] {
  const last = Math.min(samples.length - 1, Math.round(to * samplingRate));
  const out: number[] = [];
  for (let i = Math.max(0, Math.round(from * samplingRate)); i <= last; i += 1) {
    if (!Number.isNaN(samples[i])) out.push(samples[i]!);
  }
  return out;
}

/** The period that all traces show together, or null. */
function clearest(
  traces: readonly Float64Array[],
  times: Float64Array,
  span: number,
  shortest: number,
  longest: number,
): { readonly period: number } | null {
  // A quarter of the narrowest peak that a strip of this length can show.
  const step = 0.25 / span;
  let best: { period: number; together: number; shares: number[] } | null = null;
  const phases = Phases.of(times.map((time) => time / longest));
  const further = Phases.of(times.map((time) => step * time));
  for (let frequency = 1 / longest; frequency <= 1 / shortest; frequency += step) {
    const shares = traces.map((trace) => followShare(trace, phases));
    phases.advance(further);
    const together = shares.reduce((product, share) => product * share, 1);
    if (!best || together > best.together) best = { period: 1 / frequency, together, shares };
  }
  return best && Math.min(...best.shares) >= EITHER && Math.max(...best.shares) >= CLEARER
    ? { period: best.period }
    : null;
}
