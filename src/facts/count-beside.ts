import { type BeatRun, beatRuns } from '../signal/rate/beat-runs.js';
import { meanRate } from '../signal/rate/beat-to-beat.js';
import { asSpans, countedStretches, countedWithin } from '../signal/rate/counted.js';
import { shortWindow, type WindowSpread } from '../signal/rate/short-window.js';
import type { FoundRhythm, StripAnalysis } from '../signal/strip-analysis.js';
import type { Bpm } from '../units/brands.js';
import { type Pace, paceOf } from './pace.js';

/**
 * s: a displayed rate is held against the beats counted within so long around it. Lines of vitals are often written to the
 * minute, so a shorter stretch may not be the one that the display followed. Common practice: a count takes a minute.
 */
export const BESIDE = 60;

/** The share of what can be read that may be without counted beats where one count speaks for the whole. Own choice, not a clinical number: as much as rates may differ that agree. */
const UNCOUNTED = 0.1;

/** A count that leaves out more than this share of its minute speaks of less than a minute. Own choice, not a clinical number. */
const MOST = 0.5;

/** What was counted on a strip beside a moment. */
export interface CountBeside {
  readonly mean: Bpm;
  /** What a count over a few of these seconds would have shown; null where no readable run is that long. */
  readonly shortWindow: WindowSpread | null;
  readonly pace: Pace;
  /** Whether the trace could be read and no beats be counted for part of the time, as where the ventricles fibrillate. */
  readonly isWithoutBeats: boolean;
}

/**
 * The count over the minute of a strip in whose middle a moment lies, or that is nearest to it: the whole of a strip that
 * is no longer. Null where fewer than two beats on end can be counted there, or most of that time cannot be.
 * @param at s after the first sample; may lie before it, or behind the strip
 */
export function countBeside(
  {
    beats,
    duration,
    rhythms,
    quality,
  }: Pick<StripAnalysis, 'beats' | 'duration' | 'rhythms' | 'quality'>,
  at: number,
): CountBeside | null {
  const from = Math.max(0, Math.min(at - BESIDE / 2, duration - BESIDE));
  const to = Math.min(duration, from + BESIDE);
  const counted = countedWithin(countedStretches(rhythms, beats, quality.spans), from, to);
  const runs: BeatRun[] = beatRuns(
    beats.map(({ time }) => time),
    asSpans(counted),
  );
  const mean = meanRate(runs);
  const time = lasting(counted);
  if (mean === null || time < MOST * (to - from)) return null;
  const readable = lasting(countedWithin(rhythms.filter(isRead), from, to));
  return {
    mean,
    shortWindow: shortWindow(runs),
    pace: paceOf(runs),
    isWithoutBeats: readable - time > UNCOUNTED * (to - from),
  };
}

const isRead = ({ name }: FoundRhythm): boolean => name !== 'not readable';

const lasting = (stretches: readonly { readonly from: number; readonly to: number }[]): number =>
  stretches.reduce((sum, { from, to }) => sum + to - from, 0);
