import type { Seconds } from '../../units/brands.js';
import type { MarkedBeat } from '../marked-beat.js';
import type { Unreadable } from '../quality/span.js';
import type { Reason } from '../reason.js';
import type { Finding, Possible } from './rhythm.js';

/** What rules a stretch. */
export type Ruling =
  | { readonly kind: 'named'; readonly finding: Finding }
  | {
      readonly kind: 'cannot be told';
      /** What it may be, where that can be said. */
      readonly possible: readonly Possible[];
      readonly because: readonly Reason[];
    }
  | {
      readonly kind: 'not readable';
      readonly why: Unreadable;
      readonly because: readonly Reason[];
    };

/** A stretch of a strip with its rhythm, in seconds. */
export interface RhythmSpan {
  readonly from: Seconds;
  readonly to: Seconds;
  readonly ruling: Ruling;
  /** Premature beats, runs and pauses within the ruling rhythm. */
  readonly within: readonly Finding[];
  readonly beats: readonly MarkedBeat[];
}
