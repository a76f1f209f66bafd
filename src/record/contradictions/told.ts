import { Temporal } from 'temporal-polyfill';
import type { WrittenCase } from '../case-schema.js';
import { localTime } from '../moments.js';
import type { Problem } from '../problem.js';
import type { ProblemKind } from '../problem-kind.js';
import type { Located } from '../yaml-file.js';

/** A record whose fields are each well formed, and the list of those that cannot be true together. */
export interface Told {
  readonly value: WrittenCase;
  /** A moment of the record; one without a date is of the day of the surgery. */
  readonly time: (written: string) => Temporal.PlainDateTime;
  readonly earlier: (a: string, b: string) => boolean;
  readonly add: (
    kind: ProblemKind,
    path: readonly (string | number)[],
    found: string,
    expected: string,
    mend: string,
  ) => void;
}

/** @param problems where the contradictions are listed */
export function toldIn({ value, at }: Located<WrittenCase>, problems: Problem[]): Told {
  const time = (written: string) => localTime(written, value.surgery.date);
  return {
    value,
    time,
    earlier: (a, b) => Temporal.PlainDateTime.compare(time(a), time(b)) < 0,
    add: (kind, path, found, expected, mend) => {
      problems.push({ kind, ...at(...path), found, expected, mend });
    },
  };
}
