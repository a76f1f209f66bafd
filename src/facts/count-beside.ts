import { type BeatRun, beatRuns } from '../signal/rate/beat-runs.js';
import { meanRate } from '../signal/rate/beat-to-beat.js';
import { shortWindow, type WindowSpread } from '../signal/rate/short-window.js';
import type { StripAnalysis } from '../signal/strip-analysis.js';
import { type Bpm, type Seconds, seconds } from '../units/brands.js';

/**
 * s: a displayed rate is held against the beats counted within so long around it. Lines of vitals are often written to the
 * minute, so a shorter stretch may not be the one that the display followed. Common practice: a count takes a minute.
 */
export const BESIDE = 60;

/** What was counted on a strip beside a moment. */
export interface CountBeside {
  readonly mean: Bpm;
  /** What a count over a few of these seconds would have shown; null where no readable run is that long. */
  readonly shortWindow: WindowSpread | null;
}

/**
 * The count over the minute of a strip in whose middle a moment lies, or that is nearest to it: the whole of a strip that
 * is no longer. Null where fewer than two beats on end can be read there.
 * @param at s after the first sample; may lie before it, or behind the strip
 */
export function countBeside(
  { beats, duration, quality }: Pick<StripAnalysis, 'beats' | 'duration' | 'quality'>,
  at: number,
): CountBeside | null {
  const from = Math.max(0, Math.min(at - BESIDE / 2, duration - BESIDE));
  const runs = runsWithin(beats, quality.spans, seconds(from), seconds(from + BESIDE));
  const mean = meanRate(runs);
  return mean === null ? null : { mean, shortWindow: shortWindow(runs) };
}

const runsWithin = (
  beats: StripAnalysis['beats'],
  spans: StripAnalysis['quality']['spans'],
  from: Seconds,
  to: Seconds,
): BeatRun[] =>
  beatRuns(
    beats.map(({ time }) => time),
    spans
      .map((span) => ({
        ...span,
        from: seconds(Math.max(span.from, from)),
        to: seconds(Math.min(span.to, to)),
      }))
      .filter((span) => span.from < span.to),
  );
