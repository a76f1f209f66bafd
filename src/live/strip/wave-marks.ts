import type { LiveBeat } from '../contract.js';

export type WaveName = 'P' | 'QRS' | 'T';

/** A point of a beat that was marked. R is the peak of the QRS. */
export interface WaveMark {
  /** s. */
  readonly at: number;
  readonly wave: WaveName;
  readonly part: 'onset' | 'peak' | 'end';
  /** From 1. */
  readonly beat: number;
}

/** All marked points of a strip in order of time. */
export function waveMarks(beats: readonly LiveBeat[]): WaveMark[] {
  return beats
    .flatMap(({ time, p, qrs, t }, index) =>
      (
        [
          ['P', p, p?.peak],
          ['QRS', qrs, time],
          ['T', t, t?.peak],
        ] as const
      ).flatMap(([wave, marked, peak]): WaveMark[] => {
        const beat = index + 1;
        if (!marked || peak === undefined) {
          return wave === 'QRS' ? [{ at: time, wave, part: 'peak', beat }] : [];
        }
        return [
          { at: marked.onset, wave, part: 'onset', beat },
          { at: peak, wave, part: 'peak', beat },
          { at: marked.end, wave, part: 'end', beat },
        ];
      }),
    )
    .sort((a, b) => a.at - b.at);
}

/** Half of what times are told to, s: marks closer than this are one. */
const SAME = 0.000_05;

/** The mark after or before a moment; null beyond the last. */
export function nextMark(
  marks: readonly WaveMark[],
  second: number,
  step: 1 | -1,
): WaveMark | null {
  return (
    (step > 0
      ? marks.find(({ at }) => at > second + SAME)
      : marks.findLast(({ at }) => at < second - SAME)) ?? null
  );
}

/** The mark closest to a moment, no further than `reach` s; null where there is none. */
export function nearestMark(
  marks: readonly WaveMark[],
  second: number,
  reach: number,
): WaveMark | null {
  let nearest: WaveMark | null = null;
  for (const mark of marks) {
    const away = Math.abs(mark.at - second);
    if (away <= reach && away < Math.abs((nearest?.at ?? Number.NEGATIVE_INFINITY) - second)) {
      nearest = mark;
    }
  }
  return nearest;
}
