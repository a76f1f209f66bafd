import { bad, good, type Outcome, type Problem } from './problem.js';
import {
  disorderAt,
  orderProblem,
  problemAt,
  type ReadLine,
  shapeProblem,
  timeProblem,
  toldOnce,
  valuesOf,
  withoutEmptyEnd,
} from './read-cells.js';
import type { Line, RowPlan, TablePlan, VitalsRow, VitalsTable } from './vitals-rows.js';
import type { ChannelName } from './vocabulary.js';

/**
 * Lines to readings in minutes since the start of anesthesia, in the channels' own units. A line that holds neither a time
 * nor a reading, such as a footer, is no line of the table; one that repeats the line before says nothing new.
 */
export function readRows(body: readonly Line[], plan: RowPlan, file: string): Outcome<VitalsTable> {
  const { columns } = plan;
  const problems: Problem[] = [];
  const rows: VitalsRow[] = [];
  for (const line of body) {
    const cells = withoutEmptyEnd(line.cells, plan.titles.length);
    const told = plan.minute(cells);
    if (typeof told !== 'number' && !tells(line, cells, plan)) continue;
    const problem = problemAt(line, plan, file);
    const misshapen = shapeProblem(line, cells, plan, file);
    if (misshapen) {
      problems.push(misshapen);
      continue;
    }
    if (typeof told !== 'number') {
      problems.push(timeProblem(told, cells, problem));
      continue;
    }
    const read = valuesOf(cells, columns, plan, problem);
    const previous = rows.at(-1) ?? null;
    const isAgain = told === previous?.minute;
    if (
      previous !== null &&
      told <= previous.minute &&
      !(isAgain && agrees(read, previous.values))
    ) {
      problems.push(orderProblem(isAgain, cells, plan, problem));
      continue;
    }
    problems.push(...read.problems);
    const row = { line: line.line, minute: told, values: read.values };
    const whole = isAgain ? joined(rows.pop() as VitalsRow, row) : row;
    problems.push(...disorderAt(line.line, whole.values, file));
    rows.push(whole);
  }
  if (rows.length === 0 && problems.length === 0 && body.length > 0) {
    problems.push(noLineTells(body, plan, file));
  }
  return problems.length > 0
    ? bad(...toldOnce(problems, plan, file))
    : good({ channels: columns.map((column) => column.channel), rows });
}

/** Whether a line holds a reading; a sentence that falls into columns of fixed width holds one only where a number stands alone. */
const tells = ({ torn }: Line, cells: readonly string[], { columns, number }: RowPlan): boolean =>
  columns.some(({ index, isMissing, within }) => {
    const cell = cells[index] ?? '';
    const isRead = () => (within ? within.part(cell) !== null : !Number.isNaN(number(cell)));
    return !isMissing(cell) && (torn === undefined || isRead());
  });

/** What is said of a table in which no line tells anything. */
export const noLineTells = (
  body: readonly Line[],
  { clockMend }: TablePlan,
  file: string,
): Problem => ({
  kind: 'a table without lines',
  file,
  line: (body[0] as Line).line,
  found: `${body.length} ${body.length === 1 ? 'line' : 'lines'} without a time and without a reading`,
  expected: 'lines with a time and readings',
  mend: clockMend,
});

/** Whether a line tells no channel otherwise than others of its time have told it. */
export const agrees = ({ values, problems }: ReadLine, told: VitalsRow['values']): boolean =>
  problems.length === 0 &&
  Object.entries(values).every(
    ([channel, value]) => (told[channel as ChannelName] ?? value) === value,
  );

/** Two lines of one time: one may hold an event or an alarm, or each some of the readings. */
function joined(one: VitalsRow, other: VitalsRow): VitalsRow {
  const added = (Object.keys(other.values) as ChannelName[]).filter(
    (channel) => one.values[channel] === undefined,
  );
  if (added.length === 0) return one;
  if (Object.keys(one.values).length === 0) return other;
  const lines = Object.fromEntries(added.map((channel) => [channel, other.line]));
  return {
    ...one,
    values: { ...other.values, ...one.values },
    lines: { ...one.lines, ...lines },
  };
}
