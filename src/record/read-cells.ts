import { toCelsius } from '../units/convert.js';
import { roundTo } from '../units/round.js';
import { alike, firstProblems } from './first-problems.js';
import type { Problem } from './problem.js';
import type { ProblemKind } from './problem-kind.js';
import { describe } from './refusal.js';
import {
  CHANNEL_UNITS,
  type ColumnPlan,
  type Line,
  type NoTime,
  POSSIBLE,
  type TablePlan,
  type VitalsRow,
} from './vitals-rows.js';
import type { ChannelName } from './vocabulary.js';

/** A line without the empty cells that its last separators leave beyond the titles. */
export function withoutEmptyEnd(cells: readonly string[], width: number): readonly string[] {
  return cells.slice(width).every((cell) => cell === '') ? cells.slice(0, width) : cells;
}

export type Complain = (
  kind: ProblemKind,
  index: number,
  found: string,
  expected: string,
  mend: string,
) => Problem;

/** What is expected of a time that goes back. */
const LATER = 'a time later than on the line before';
/** What is expected of a time that stands twice, with other readings. */
const ONCE = 'one line for each time';
const MEND_TIME = 'Mend the time on this line, or take the line out.';

/** More lines than anybody mends one by one. Not a clinical number. */
const MOST_SHOWN = 20;

/** Problems of lines as they are told: those of one slip together, and no more than anybody mends. */
export const toldOnce = (
  problems: readonly Problem[],
  { clockMend, orderMend }: TablePlan,
  file: string,
): readonly Problem[] => {
  const together = ({ expected, mend }: Problem) => {
    if (expected === LATER) return orderMend;
    return mend === MEND_TIME ? clockMend : null;
  };
  return firstProblems(alike(problems, together), MOST_SHOWN, file);
};

/** Tells of a time that is not understood. */
export function timeProblem(
  { at, expected, readAs, mend = MEND_TIME }: NoTime,
  cells: readonly string[],
  problem: Complain,
): Problem {
  const found = `${describe(cells[at])}${readAs === undefined ? '' : `, read as ${readAs}`}`;
  return problem('a line without its time', at, found, expected, mend);
}

/** Tells of a time that does not come after the one before. */
export function orderProblem(
  isAgain: boolean,
  cells: readonly string[],
  { timeAt }: TablePlan,
  problem: Complain,
): Problem {
  const [expected, mend] = isAgain
    ? [ONCE, 'Keep one line of each time, or export the table with seconds.']
    : [LATER, 'Sort the lines by their time, mend this one, or take the line out.'];
  return problem('a line without its time', timeAt, describe(cells[timeAt]), expected, mend);
}

/** Tells of a line that cannot be one of the table, whatever it holds; null where it may be one. */
export function shapeProblem(
  line: Line,
  cells: readonly string[],
  plan: TablePlan,
  file: string,
): Problem | null {
  if (cells.length === plan.titles.length && cells.every((cell, at) => cell === plan.titles[at])) {
    return {
      kind: 'titles in the middle of a table',
      file,
      line: line.line,
      found: 'the titles again',
      expected: 'the readings of one patient below one line of titles',
      mend: "Where another patient's readings begin here, take them out of the file; else take out this line.",
    };
  }
  if (line.torn !== undefined) {
    return problemAt(line, plan, file)(
      'a word across two columns',
      line.torn,
      'a word that begins in the column before',
      'a space before each column of fixed width',
      'Mend "column widths" of the form, or this line; where the table has no spaces between its columns, add "columns touch: yes" to the form.',
    );
  }
  return cells.length === plan.titles.length ? null : widthProblem(cells, line, plan, file);
}

/** Tells of a cell of a line. */
export const problemAt =
  ({ line }: Line, { titles, place }: TablePlan, file: string): Complain =>
  (kind, index, found, expected, mend) => ({
    kind,
    file,
    line,
    ...place(line, index),
    field: titles[index] || `column ${index + 1}`,
    found,
    expected,
    mend,
  });

const widthProblem = (
  cells: readonly string[],
  { line }: Line,
  { titles, surplus }: TablePlan,
  file: string,
): Problem => ({
  kind: 'a line with too many or too few cells',
  file,
  line,
  found: `${cells.length} columns`,
  expected: `${titles.length} columns, as in the header`,
  mend:
    cells.length > titles.length
      ? surplus
      : 'Leave a cell empty where there is no reading, but keep its separator.',
});

export interface ReadLine {
  readonly values: VitalsRow['values'];
  readonly problems: readonly Problem[];
}

/** The readings of a line, in the channels' own units. */
export function valuesOf(
  cells: readonly string[],
  columns: readonly ColumnPlan[],
  plan: TablePlan,
  problem: Complain,
): ReadLine {
  const problems: Problem[] = [];
  const values: Partial<Record<ChannelName, number>> = {};
  const misread = new Set<number>();
  for (const { channel, index, unit, toOwn, isMissing, within } of columns) {
    const whole = cells[index] as string;
    if (isMissing(whole) || misread.has(index)) continue;
    const cell = within ? within.part(whole) : whole;
    if (cell === null) {
      // Told once, whatever the number of readings in it.
      misread.add(index);
      const expected = `a cell written like "${within?.pattern}", or a mark for a missing reading`;
      problems.push(
        problem('a reading that is no number', index, describe(whole), expected, plan.mend(whole)),
      );
      continue;
    }
    if (isMissing(cell)) continue;
    const shown = plan.number(cell);
    const value = toOwn(shown);
    const [low, high] = POSSIBLE[channel];
    if (Number.isNaN(shown)) {
      problems.push(
        problem(
          'a reading that is no number',
          index,
          describe(cell),
          plan.expected,
          plan.mend(cell),
        ),
      );
    } else if (value < low || value > high) {
      problems.push(
        problem(
          'an impossible reading',
          index,
          `${cell} ${unit}`,
          `between ${low} and ${high} ${CHANNEL_UNITS[channel]}`,
          `Check the digits and the unit in the header. ${plan.noReading(cell)}`,
        ),
      );
    } else values[channel] = value;
  }
  return { values, problems };
}

/** Pascals in one conventional millimetre of mercury. Source: NIST Special Publication 811 (2008), appendix B.8. */
export const PASCAL_PER_MMHG = 133.3224;

/** Decimals of a reading in another unit: no monitor tells a tenth of a degree or of a kilopascal more finely. Not a clinical number. */
export const CONVERTED = 2;

/** A reading in a unit that tables may use to the channel's own. */
export function toChannelUnit(value: number, unit: string): number {
  if (unit === 'F') return roundTo(toCelsius(value, 'F'), CONVERTED);
  if (unit === 'fraction') return roundTo(value * 100, CONVERTED);
  if (unit === 'kPa') return roundTo((value * 1000) / PASCAL_PER_MMHG, CONVERTED);
  return value;
}

/** What is out of order among the pressures of a moment; null where nothing is. */
function pressureDisorder(values: VitalsRow['values']): string | null {
  const { systolic, mean, diastolic } = values;
  const order = [
    ['diastolic', diastolic, 'mean', mean],
    ['mean', mean, 'systolic', systolic],
    ['diastolic', diastolic, 'systolic', systolic],
  ] as const;
  for (const [lower, low, upper, high] of order) {
    if (low !== undefined && high !== undefined && low > high) {
      return `${lower} ${low} above ${upper} ${high}`;
    }
  }
  return null;
}

/** Tells of pressures of one moment that cannot be. */
export function disorderAt(line: number, values: VitalsRow['values'], file: string): Problem[] {
  const found = pressureDisorder(values);
  if (found === null) return [];
  return [
    {
      kind: 'pressures out of order',
      file,
      line,
      found,
      expected: 'diastolic at most mean, mean at most systolic',
      mend: 'Check whether two columns or two digits were exchanged.',
    },
  ];
}
