import type { ElectricalRecord } from '../../../src/live/heart/phase.js';
import type { BeatKind, Wave } from '../../../src/signal/marked-beat.js';
import type { AnalysedBeat, FoundRhythm } from '../../../src/signal/strip-analysis.js';
import { millivolt, seconds } from '../../../src/units/brands.js';

export const wave = (onset: number, end: number): Wave => ({
  onset: seconds(onset),
  peak: seconds((onset + end) / 2),
  end: seconds(end),
  height: millivolt(1),
  confidence: 1,
});

/** A beat whose R stands at `time`: P 0.13 to 0.09 s before it, QRS 0.06 s, T from 0.12 to 0.2 s after it. */
export const beatAt = (
  time: number,
  kind: BeatKind = 'sinus',
  marks: Partial<Pick<AnalysedBeat, 'p' | 'qrs' | 't'>> = {},
): AnalysedBeat => ({
  time: seconds(time),
  kind,
  p: wave(time - 0.13, time - 0.09),
  qrs: wave(time - 0.03, time + 0.03),
  t: wave(time + 0.12, time + 0.2),
  ...marks,
});

const rhythm = (name: FoundRhythm['name'], from: number, to: number): FoundRhythm => ({
  name,
  from: seconds(from),
  to: seconds(to),
  confidence: 1,
  possible: [],
  because: [],
  range: null,
  within: [],
});

/** A strip of 10 s, readable but for the given stretches. */
export function strip(
  beats: readonly AnalysedBeat[],
  {
    ruled = 'sinus rhythm',
    loneP = [],
    unreadable = null,
  }: {
    readonly ruled?: FoundRhythm['name'];
    readonly loneP?: readonly Wave[];
    readonly unreadable?: readonly [from: number, to: number] | null;
  } = {},
): ElectricalRecord {
  const span = (from: number, to: number, readable: boolean) => ({
    from: seconds(from),
    to: seconds(to),
    readable,
    why: readable ? ('' as const) : ('noise' as const),
  });
  return {
    beats,
    loneP,
    rhythms: [rhythm(ruled, 0, 10)],
    quality: {
      spans: unreadable
        ? [
            span(0, unreadable[0], true),
            span(unreadable[0], unreadable[1], false),
            span(unreadable[1], 10, true),
          ]
        : [span(0, 10, true)],
    },
  };
}
