import type { BeatKind } from '../marked-beat.js';
import type { Span } from './breath-clock.js';
import { withoutTrend } from './follow.js';

/** RR intervals of the part of a strip that may be used. */
export interface Intervals {
  /** Number of intervals. */
  readonly n: number;
  /** s, in order. */
  readonly rr: Float64Array;
  /** What of each interval is not slow drift of the rate, s; adds up to 0. */
  readonly swing: Float64Array;
  /** Middle of each interval, s. */
  readonly middles: Float64Array;
  /** For each interval, the beat that opens it where no interval ends there (a run begins), else NaN. */
  readonly opens: Float64Array;
}

/** A beat (R peak, s), with its kind where that is known. */
export interface TimedBeat {
  readonly time: number;
  readonly kind?: BeatKind;
}

/** An early or escaping beat keeps no time with the sinus node; one without a kind is taken as it is. */
const countsAsSinus = ({ kind = 'unclassified' }: TimedBeat): boolean =>
  kind === 'sinus' || kind === 'unclassified';

/**
 * Intervals between neighbouring beats that lie, with all between them, in one span. Intervals that
 * touch a beat known not to come from the sinus node are left out (normal-to-normal intervals, Task
 * Force of ESC/NASPE 1996): ectopy that recurs at about the pace of the breath is no link.
 */
export function intervalsIn(beats: readonly TimedBeat[], spans: readonly Span[]): Intervals {
  const kept: { from: number; to: number; opens: boolean }[] = [];
  let span = 0;
  for (let i = 1; i < beats.length; i += 1) {
    const opening = beats[i - 1] as TimedBeat;
    const closing = beats[i] as TimedBeat;
    const from = opening.time;
    const to = closing.time;
    while (span < spans.length && (spans[span] as Span).to < to) span += 1;
    const within = spans[span];
    if (!within || from < within.from || to <= from) continue;
    if (countsAsSinus(opening) && countsAsSinus(closing)) {
      kept.push({ from, to, opens: kept.at(-1)?.to !== from });
    }
  }
  const rr = Float64Array.from(kept, ({ from, to }) => to - from);
  const middles = Float64Array.from(kept, ({ from, to }) => (from + to) / 2);
  return {
    n: kept.length,
    rr,
    swing: withoutTrend(rr, middles),
    middles,
    opens: Float64Array.from(kept, ({ from, opens }) => (opens ? from : Number.NaN)),
  };
}
