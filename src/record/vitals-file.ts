import { Temporal } from 'temporal-polyfill';
import { dayClock } from './day-clock.js';
import { type CellPlace, cellPlaces } from './monitor-table/cell-place.js';
import { cellsOf } from './monitor-table/table-text.js';
import { nearest } from './nearest.js';
import { bad, good, type Outcome, type Problem } from './problem.js';
import type { ProblemKind } from './problem-kind.js';
import { unitOf } from './quantity.js';
import { toChannelUnit } from './read-cells.js';
import { readRows } from './read-rows.js';
import { describe } from './refusal.js';
import {
  ACCEPTED_UNITS,
  type ColumnPlan,
  type Line,
  type RowPlan,
  type VitalsTable,
} from './vitals-rows.js';
import { CHANNELS } from './vocabulary.js';

export type { VitalsTable } from './vitals-rows.js';
export { CHANNEL_UNITS } from './vitals-rows.js';

type TimeColumn = { readonly index: number; readonly kind: 'clock' | 'elapsed' };

/**
 * `vitals.csv` to rows in minutes since the start of anesthesia.
 * The header names each channel with its unit, for example `clock,heart rate [/min],temperature [°C]`;
 * an empty cell or `-` is a missing reading. Time is a column `elapsed [min]` or `clock`: HH:MM, or day and time as ISO 8601
 * writes them, by the clock of the clinic unless they tell their distance from UTC.
 * @param begin start of anesthesia in the time zone of the clinic
 */
export function readVitals(
  text: string,
  file: string,
  begin: Temporal.ZonedDateTime,
): Outcome<VitalsTable> {
  const lines = splitLines(text, file);
  if (!lines.ok) return lines;
  const [header, ...body] = lines.value;
  if (!header) {
    return bad({
      kind: 'a table without lines',
      file,
      line: 1,
      found: 'an empty file',
      expected: 'a header line and readings',
      mend: 'Start with a line such as: clock,heart rate [/min],systolic [mmHg]',
    });
  }
  const place = cellPlaces(text, ',');
  const plan = readHeader(header, file, place);
  if (!plan.ok) return plan;
  const { time, columns } = plan.value;
  const read = readRows(body, rowPlan(header.cells, time, columns, begin, place), file);
  const repeated = repeatedLines(body);
  return read.ok && repeated.length > 0 ? good({ ...read.value, repeated }) : read;
}

/** Whoever keeps a table by hand writes no line twice, while a monitor may: a line of another time was copied, and not changed. */
const repeatedLines = (body: readonly Line[]): number[] =>
  body.flatMap(({ line, cells }, index) => {
    const before = body[index - 1]?.cells;
    const isCopy = cells.some((cell) => !isMissing(cell)) && `${cells}` === `${before}`;
    return isCopy ? [line] : [];
  });

function splitLines(text: string, file: string): Outcome<Line[]> {
  const first = text.split(/\r?\n/, 1)[0] ?? '';
  if (first.includes(';') && !first.includes(',')) {
    return bad({
      kind: 'semicolons between columns',
      file,
      line: 1,
      found: 'columns separated by semicolons',
      expected: 'columns separated by commas, numbers with a decimal point',
      mend: 'Export the table again with commas between columns and points in numbers.',
    });
  }
  return cellsOf(text, ',', file, {
    strayQuotes: false,
    expected: 'a table with commas between columns',
  });
}

function readHeader(header: Line, file: string, place: CellPlace) {
  const problems: Problem[] = [];
  const columns: ColumnPlan[] = [];
  let time: TimeColumn | null = null;
  for (const [index, cell] of header.cells.entries()) {
    const [, title = cell, unit] = /^([^[\]]*?)\s*(?:\[([^[\]]+)\])?$/.exec(cell) ?? [];
    const problem = (kind: ProblemKind, found: string, expected: string, mend: string) =>
      problems.push({
        kind,
        file,
        line: header.line,
        ...place(header.line, index),
        field: cell,
        found,
        expected,
        mend,
      });
    if (title === 'clock' || title === 'elapsed') {
      if (title === 'elapsed' && (unit === undefined || unitOf(unit, ['min']) === undefined)) {
        problem(
          'not one column of time',
          describe(cell),
          'elapsed time in minutes',
          'Write the title as: elapsed [min]',
        );
      }
      if (time)
        problem(
          'not one column of time',
          'a second column of time',
          'one column of time',
          'Keep clock or elapsed.',
        );
      time = { index, kind: title };
      continue;
    }
    const channel = CHANNELS.find((name) => name === title);
    if (!channel) {
      const close = nearest(title, CHANNELS);
      problem(
        'an unknown column',
        `the column ${describe(title)}`,
        `clock, elapsed or one of: ${CHANNELS.join(', ')}`,
        close ? `Did you mean "${close}"?` : 'Rename the column or take it out.',
      );
      continue;
    }
    const units = ACCEPTED_UNITS[channel];
    const known = unit === undefined ? undefined : unitOf(unit, units);
    if (known === undefined) {
      problem(
        'a column without a known unit',
        unit === undefined ? 'no unit in the title' : `the unit ${describe(unit)}`,
        `${channel} in ${units.join(' or ')}`,
        `Write the title as: ${channel} [${units[0]}]`,
      );
      continue;
    }
    if (columns.some((column) => column.channel === channel)) {
      problem(
        'a column given twice',
        `a second column "${channel}"`,
        'each channel once',
        'Take one of the two out.',
      );
      continue;
    }
    const toOwn = (shown: number) => toChannelUnit(shown, known);
    columns.push({ channel, index, unit: known, toOwn, isMissing });
  }
  if (!time) {
    problems.push({
      kind: 'not one column of time',
      file,
      line: header.line,
      field: 'clock',
      found: 'no column of time',
      expected: 'a column clock or elapsed [min]',
      mend: 'Add a first column with the title clock and times such as 09:45.',
    });
  }
  return time && problems.length === 0 ? good({ time, columns }) : bad(...problems);
}

const CLOCK = /^([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?$/;
const STAMP = /^\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(:\d{2}([.,]\d{1,9})?)?(Z|[+-]\d{2}:\d{2})?$/;

/** Minutes since the start of anesthesia at what a cell of the column `clock` says; null where it is no time. */
function minuteOf(
  cell: string,
  begin: Temporal.ZonedDateTime,
  sinceBegin: ReturnType<typeof dayClock>,
): number | null {
  if (CLOCK.test(cell)) return sinceBegin(Temporal.PlainTime.from(cell), null);
  const [stamp, , , offset] = STAMP.exec(cell) ?? [];
  if (stamp === undefined) return null;
  try {
    if (offset === undefined) {
      const local = Temporal.PlainDateTime.from(stamp);
      return sinceBegin(local.toPlainTime(), local.toPlainDate());
    }
    const instant = Temporal.Instant.from(stamp);
    return (instant.epochMilliseconds - begin.epochMilliseconds) / 60_000;
  } catch {
    return null;
  }
}

const isMissing = (cell: string) => cell === '' || cell === '-';

const DECIMAL = /^-?\d+(\.\d+)?$/;

function rowPlan(
  titles: readonly string[],
  time: TimeColumn,
  columns: readonly ColumnPlan[],
  begin: Temporal.ZonedDateTime,
  place: CellPlace,
): RowPlan {
  const sinceBegin = dayClock(begin);
  const noTime = (expected: string) => ({ at: time.index, expected });
  return {
    titles,
    columns,
    timeAt: time.index,
    minute: (cells) => {
      const cell = cells[time.index] ?? '';
      if (time.kind === 'elapsed') {
        return DECIMAL.test(cell) ? Number(cell) : noTime('minutes such as 5 or 2.5');
      }
      return (
        minuteOf(cell, begin, sinceBegin) ?? noTime('a time such as 09:45 or 2026-03-09T09:45')
      );
    },
    number: (cell) => (DECIMAL.test(cell) ? Number(cell) : Number.NaN),
    expected: 'a number with a decimal point, or an empty cell',
    mend: (cell) =>
      /^\d+,\d+$/.test(cell) ? `Write ${cell.replace(',', '.')}.` : 'Mend or empty the cell.',
    place,
    noReading: () => 'Empty the cell if there was no reading.',
    clockMend:
      'Write the times so, or have the table read as the monitor wrote it: "thrice table FILE" proposes how.',
    orderMend: 'Sort the lines by their time.',
    surplus: 'A decimal comma splits a number in two: write 37.8, not 37,8.',
  };
}
