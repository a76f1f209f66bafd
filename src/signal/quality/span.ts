import type { Seconds } from '../../units/brands.js';
import { seconds } from '../../units/brands.js';
import { pieces } from '../filter/pieces.js';
import type { Run } from '../filter/runs.js';

/**
 * Why a stretch of a lead cannot be read. `no samples`: the file holds no valid samples. `flat line`: no
 * deflection at all, as from a lead that has come off; it cannot be told from a heart at rest by
 * this lead alone. `clipped`: the signal stands at the end of the recorder's range. `noise`: as
 * large as the QRS and without rest, as from electrosurgery or muscle.
 */
export type Unreadable = 'no samples' | 'flat line' | 'clipped' | 'noise';

/** A stretch of the strip, `from` to `to` in seconds after its first sample. */
export interface Span {
  readonly from: Seconds;
  readonly to: Seconds;
  readonly readable: boolean;
  /** The reason, empty where readable. */
  readonly why: Unreadable | '';
}

/** Sample positions that cannot be read, and why. */
export interface Blemish extends Run {
  readonly why: Unreadable;
}

/** The reasons in the order in which they are looked for: the first one found is told. */
export const reasons: readonly Unreadable[] = ['no samples', 'clipped', 'flat line', 'noise'];

/**
 * The strip from 0 to `duration` as spans without hole or overlap. `marks[i]` tells of the i-th
 * sample (`rate` a second): 0 where readable, else 1 + the reason's place in `reasons`.
 */
export function spansFromMarks(marks: Uint8Array, rate: number, duration: number): Span[] {
  const spans: Span[] = [];
  for (let from = 0; from < marks.length; ) {
    const end = endOfMark(marks, from);
    const why = reasons[marks[from]! - 1] ?? '';
    const to = end === marks.length ? duration : end / rate;
    spans.push({ from: seconds(from / rate), to: seconds(to), readable: why === '', why });
    from = end;
  }
  return spans;
}

/** Where the mark at `from` gives way to another, or the marks end. */
function endOfMark(marks: Uint8Array, from: number): number {
  for (const [first, end] of pieces(marks.length - from)) {
    const at = firstOther(marks, from + first, from + end, marks[from]!);
    if (at < from + end) return at;
  }
  return marks.length;
}

function firstOther(marks: Uint8Array, from: number, to: number, mark: number): number {
  let i = from;
  while (i < to && marks[i] === mark) i++;
  return i;
}

/**
 * The spans of a strip of several leads: readable wherever any lead is; elsewhere the reason is
 * that of the first lead that still lasts. One list of spans a lead.
 */
export function readableInAny(leads: readonly (readonly Span[])[]): Span[] {
  const edges = [...new Set(leads.flatMap((spans) => spans.flatMap(({ from, to }) => [from, to])))];
  edges.sort((a, b) => a - b);
  const pieces: Span[] = [];
  const next = leads.map(() => 0);
  for (let k = 0; k + 1 < edges.length; k++) {
    const from = edges[k]!;
    const to = edges[k + 1]!;
    const here = leads.flatMap((spans, lead) => {
      while (spans[next[lead]!] && spans[next[lead]!]!.to < to) next[lead]!++;
      return spans[next[lead]!] ?? [];
    });
    const best = here.find((s) => s.readable) ?? here[0];
    if (!best) continue;
    const before = pieces.at(-1);
    if (before && before.why === best.why && before.to === from) {
      pieces[pieces.length - 1] = { ...before, to };
    } else {
      pieces.push({ from, to, readable: best.readable, why: best.why });
    }
  }
  return pieces;
}

/** Seconds that can be read. */
export function readableTime(spans: readonly Span[]): Seconds {
  return seconds(spans.reduce((sum, s) => sum + (s.readable ? s.to - s.from : 0), 0));
}
