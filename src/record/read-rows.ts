import { toCelsius } from '../units/convert.js';
import { roundTo } from '../units/round.js';
import { alike, firstProblems } from './first-problems.js';
import { bad, good, type Outcome, type Problem } from './problem.js';
import type { ProblemKind } from './problem-kind.js';
import { describe } from './refusal.js';
import {
  CHANNEL_UNITS,
  type Line,
  POSSIBLE,
  type RowPlan,
  type VitalsRow,
  type VitalsTable,
} from './vitals-rows.js';
import type { ChannelName } from './vocabulary.js';

/** What is expected of a time that goes back. */
const LATER = 'a time later than on the line before';
/** What is expected of a time that stands twice, with other readings. */
const ONCE = 'one line for each time';

/** More lines than anybody mends one by one. Not a clinical number. */
const MOST_SHOWN = 20;

/**
 * Lines to readings in minutes since the start of anesthesia, in the channels' own units. A line that holds neither a time
 * nor a reading, such as a footer, is no line of the table; one that repeats the line before says nothing new.
 */
export function readRows(body: readonly Line[], plan: RowPlan, file: string): Outcome<VitalsTable> {
  const { columns, timeAt } = plan;
  const problems: Problem[] = [];
  const rows: VitalsRow[] = [];
  for (const line of body) {
    const cells = withoutEmptyEnd(line.cells, plan.titles.length);
    const told = plan.minute(cells);
    const tells = columns.some(({ index, isMissing }) => !isMissing(cells[index] ?? ''));
    if (typeof told !== 'number' && !tells) continue;
    const problem = problemAt(line, plan, file);
    if (cells.length !== plan.titles.length) {
      problems.push(widthProblem(cells, line, plan, file));
      continue;
    }
    if (typeof told !== 'number') {
      const { at, expected, readAs } = told;
      const found = `${describe(cells[at])}${readAs === undefined ? '' : `, read as ${readAs}`}`;
      const mend = 'Mend the time on this line, or take the line out.';
      problems.push(problem('a line without its time', at, found, expected, mend));
      continue;
    }
    const read = valuesOf(cells, plan, problem);
    const previous = rows.at(-1) ?? null;
    if (told === previous?.minute && isEmpty(previous)) rows.pop();
    else if (previous !== null && told <= previous.minute) {
      if (told === previous.minute && repeats(read, previous)) continue;
      const [expected, mend] =
        told === previous.minute
          ? [ONCE, 'Keep one line of each time, or export the table with seconds.']
          : [LATER, 'Sort the lines by their time, mend this one, or take the line out.'];
      const found = describe(cells[timeAt]);
      problems.push(problem('a line without its time', timeAt, found, expected, mend));
      continue;
    }
    problems.push(...read.problems);
    const disorder = pressureDisorder(read.values);
    if (disorder) {
      problems.push({
        kind: 'pressures out of order',
        file,
        line: line.line,
        found: disorder,
        expected: 'diastolic at most mean, mean at most systolic',
        mend: 'Check whether two columns or two digits were exchanged.',
      });
    }
    rows.push({ line: line.line, minute: told, values: read.values });
  }
  if (rows.length === 0 && problems.length === 0 && body.length > 0) {
    problems.push(noLineTells(body, plan, file));
  }
  const together = ({ kind, expected }: Problem) => {
    if (kind !== 'a line without its time' || expected === ONCE) return null;
    return expected === LATER ? plan.orderMend : plan.clockMend;
  };
  return problems.length > 0
    ? bad(...firstProblems(alike(problems, together), MOST_SHOWN, file))
    : good({ channels: columns.map((column) => column.channel), rows });
}

/** A line without the empty cells that its last separators leave beyond the titles. */
function withoutEmptyEnd(cells: readonly string[], width: number): readonly string[] {
  return cells.slice(width).every((cell) => cell === '') ? cells.slice(0, width) : cells;
}

type Complain = (
  kind: ProblemKind,
  index: number,
  found: string,
  expected: string,
  mend: string,
) => Problem;

const problemAt =
  ({ line }: Line, { titles, place }: RowPlan, file: string): Complain =>
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
  { titles, surplus }: RowPlan,
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

const noLineTells = (body: readonly Line[], { clockMend }: RowPlan, file: string): Problem => ({
  kind: 'a table without lines',
  file,
  line: (body[0] as Line).line,
  found: `${body.length} ${body.length === 1 ? 'line' : 'lines'} without a time and without a reading`,
  expected: 'lines with a time and readings',
  mend: clockMend,
});

interface ReadLine {
  readonly values: VitalsRow['values'];
  readonly problems: readonly Problem[];
}

/** The readings of a line, in the channels' own units. */
function valuesOf(cells: readonly string[], plan: RowPlan, problem: Complain): ReadLine {
  const problems: Problem[] = [];
  const values: Partial<Record<ChannelName, number>> = {};
  const misread = new Set<number>();
  for (const { channel, index, unit, isMissing, within } of plan.columns) {
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
    const value = toChannelUnit(shown, unit);
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

/** A line of an event or an alarm, beside that of the readings. */
const isEmpty = ({ values }: VitalsRow): boolean => Object.keys(values).length === 0;

/** Whether a line tells nothing that the row does not. */
const repeats = ({ values, problems }: ReadLine, row: VitalsRow): boolean =>
  problems.length === 0 &&
  Object.entries(values).every(([channel, value]) => row.values[channel as ChannelName] === value);

/** Pascals in one conventional millimetre of mercury. Source: NIST Special Publication 811 (2008), appendix B.8. */
const PASCAL_PER_MMHG = 133.3224;

/** Decimals of a reading in another unit: no monitor tells a tenth of a degree or of a kilopascal more finely. Not a clinical number. */
const CONVERTED = 2;

/** A reading in a unit that tables may use to the channel's own. */
export function toChannelUnit(value: number, unit: string): number {
  if (unit === 'F') return roundTo(toCelsius(value, 'F'), CONVERTED);
  if (unit === 'fraction') return roundTo(value * 100, CONVERTED);
  if (unit === 'kPa') return roundTo((value * 1000) / PASCAL_PER_MMHG, CONVERTED);
  return value;
}

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
