import type { Seconds } from '../../units/brands.js';
import { countBefore } from '../filter/ascending.js';
import type { Span } from '../quality/span.js';

/** The beats of one stretch that can be read throughout: within it, a missing beat is a pause. */
export interface BeatRun {
  readonly from: Seconds;
  readonly to: Seconds;
  /** R times in s, ascending, all within the stretch. */
  readonly beats: readonly Seconds[];
}

/**
 * Beats sorted into the readable spans that they lie in. Nothing may be counted from one run to the
 * next: what happened in between was not seen. `beats` in s, ascending.
 */
export function beatRuns(beats: readonly Seconds[], spans: readonly Span[]): BeatRun[] {
  return spans
    .filter((span) => span.readable)
    .map(({ from, to }) => {
      const first = countBefore(beats, (beat) => beat >= from);
      return {
        from,
        to,
        beats: beats.slice(
          first,
          countBefore(beats, (beat) => beat > to),
        ),
      };
    });
}
