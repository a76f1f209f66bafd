import type { Outcome, Problem } from '../../record/problem.js';
import { bad, good } from '../../record/problem.js';
import type { ProblemKind } from '../../record/problem-kind.js';
import { nthSmallest } from '../filter/order-statistics.js';

/** The column of a table that says when each row was sampled, in seconds from the first row. */
export interface TimeColumn {
  readonly name: string;
  readonly seconds: Float64Array;
  /** 1-based line of each row. */
  readonly lines: readonly number[];
  /** Where its cell of a line stands. */
  readonly place: (line: number) => Pick<Problem, 'column' | 'end'>;
}

/**
 * The rate of evenly spaced rows, in Hz.
 *
 * Printed times are rounded (360 Hz in whole milliseconds steps by 2 or 3 ms), so steps need not be
 * equal. The tolerance is half a sampling period, for every step and for every row's place on the
 * even grid: within it each row still is the nearest to its own place, so a sample's index tells its
 * time; beyond it a row was lost, doubled or moved. A whole rate, or the one the case record states,
 * is taken where it also keeps every row within that tolerance.
 */
export function samplingRateOf(
  { name, seconds, lines, place }: TimeColumn,
  file: string,
  stated?: number,
): Outcome<number> {
  const count = seconds.length;
  const at = (kind: ProblemKind, row: number, found: string, expected: string, mend: string) => {
    const line = lines[row] ?? 1;
    return bad({ kind, file, line, ...place(line), field: name, found, expected, mend });
  };
  if (count < 2) {
    return at(
      'samples without a sampling rate',
      0,
      'a single row',
      'at least two rows, whose distance gives the sampling rate',
      'Export more than one sample.',
    );
  }
  const steps = new Float64Array(count - 1);
  for (let row = 1; row < count; row += 1) steps[row - 1] = seconds[row]! - seconds[row - 1]!;
  const usual = nthSmallest(steps.slice(), steps.length >> 1);
  const odd = steps.findIndex((step) => !(step > 0 && step >= 0.5 * usual && step <= 1.5 * usual));
  if (odd >= 0) {
    return at(
      'uneven times',
      odd + 1,
      `a step of ${readable(steps[odd]!)} s from the row before`,
      `about ${readable(usual)} s, as in most rows`,
      'Export the waveform with even, rising times; leave cells empty where samples are missing.',
    );
  }

  const period = (seconds[count - 1]! - seconds[0]!) / (count - 1);
  const strays = (rate: number) =>
    seconds.findIndex((time, row) => Math.abs((time - seconds[0]!) * rate - row) > 0.5);
  const measured = 1 / period;
  const stray = strays(measured);
  if (stray >= 0) {
    return at(
      'uneven times',
      stray,
      `${readable(seconds[stray]!)} s`,
      `${readable(seconds[0]! + stray * period)} s, give or take half a step`,
      'Export the waveform at one sampling rate.',
    );
  }
  if (stated !== undefined) {
    if (strays(stated) < 0) return good(stated);
    return at(
      'a sampling rate that does not fit',
      0,
      `times that step at ${readable(measured)} Hz`,
      `${stated} Hz, as the case record or --sampling-rate states`,
      'Correct that sampling rate, or the unit of the time column.',
    );
  }
  const whole = Math.round(measured);
  const isNear = Math.abs(measured - whole) < 0.001 * measured;
  return good(isNear && strays(whole) < 0 ? whole : measured);
}

const readable = (value: number): string => String(Number(value.toPrecision(6)));
