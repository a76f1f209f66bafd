import { type CsvError, parse } from 'csv-parse/sync';
import { Temporal } from 'temporal-polyfill';
import { toCelsius } from '../units/convert.js';
import { nearest } from './nearest.js';
import { bad, good, type Outcome, type Problem } from './problem.js';
import { unitOf } from './quantity.js';
import { describe } from './refusal.js';
import { CHANNELS, type ChannelName } from './vocabulary.js';

/** One line of the vitals file. */
export interface VitalsRow {
  readonly line: number;
  /** Minutes since the start of anesthesia; negative before it. */
  readonly minute: number;
  /** In the channel's own unit (see `CHANNEL_UNITS`); a channel without a reading is absent. */
  readonly values: Readonly<Partial<Record<ChannelName, number>>>;
}

export interface VitalsTable {
  readonly channels: readonly ChannelName[];
  readonly rows: readonly VitalsRow[];
}

/** The unit that a channel is kept in. */
export const CHANNEL_UNITS: Readonly<Record<ChannelName, string>> = {
  systolic: 'mmHg',
  diastolic: 'mmHg',
  mean: 'mmHg',
  'heart rate': '/min',
  SpO2: '%',
  EtCO2: 'mmHg',
  breaths: '/min',
  temperature: 'C',
  agent: '%',
};

/** Pascals in one conventional millimetre of mercury. Source: NIST Special Publication 811 (2008), appendix B.8. */
const PASCAL_PER_MMHG = 133.3224;

const ACCEPTED_UNITS: Readonly<Record<ChannelName, readonly string[]>> = {
  systolic: ['mmHg', 'kPa'],
  diastolic: ['mmHg', 'kPa'],
  mean: ['mmHg', 'kPa'],
  'heart rate': ['/min'],
  SpO2: ['%'],
  EtCO2: ['mmHg', 'kPa'],
  breaths: ['/min'],
  temperature: ['C', 'F'],
  agent: ['%'],
};

/**
 * What an instrument can show at all, in the channel's unit. Not a clinical range: it only catches a slipped digit or a
 * wrong unit (98.6 in a column headed °C). Source: common practice.
 */
const POSSIBLE: Readonly<Record<ChannelName, readonly [number, number]>> = {
  systolic: [0, 350],
  diastolic: [0, 300],
  mean: [0, 320],
  'heart rate': [0, 500],
  SpO2: [0, 100],
  EtCO2: [0, 150],
  breaths: [0, 400],
  temperature: [5, 45],
  agent: [0, 20],
};

interface ColumnPlan {
  readonly channel: ChannelName;
  readonly index: number;
  readonly unit: string;
}

type TimeColumn = { readonly index: number; readonly kind: 'clock' | 'elapsed' };

/**
 * `vitals.csv` to rows in minutes since the start of anesthesia.
 * The header names each channel with its unit, for example `clock,heart rate [/min],temperature [°C]`;
 * an empty cell or `-` is a missing reading. Time is a column `clock` (HH:MM) or `elapsed [min]`.
 * @param begin local start of anesthesia
 */
export function readVitals(
  text: string,
  file: string,
  begin: Temporal.PlainDateTime,
): Outcome<VitalsTable> {
  const lines = splitLines(text, file);
  if (!lines.ok) return lines;
  const [header, ...body] = lines.value;
  if (!header) {
    return bad({
      file,
      line: 1,
      found: 'an empty file',
      expected: 'a header line and readings',
      mend: 'Start with a line such as: clock,heart rate [/min],systolic [mmHg]',
    });
  }
  const plan = readHeader(header, file);
  if (!plan.ok) return plan;
  return readRows(body, plan.value.time, plan.value.columns, header.cells, file, begin);
}

interface Line {
  readonly line: number;
  readonly cells: readonly string[];
}

function splitLines(text: string, file: string): Outcome<Line[]> {
  const first = text.split(/\r?\n/, 1)[0] ?? '';
  if (first.includes(';') && !first.includes(',')) {
    return bad({
      file,
      line: 1,
      found: 'columns separated by semicolons',
      expected: 'columns separated by commas, numbers with a decimal point',
      mend: 'Export the table again with commas between columns and points in numbers.',
    });
  }
  try {
    const records = parse(text, {
      bom: true,
      info: true,
      relaxColumnCount: true,
      skipEmptyLines: true,
      trim: true,
    }) as unknown as { record: string[]; info: { lines: number } }[];
    return good(records.map(({ record, info }) => ({ line: info.lines, cells: record })));
  } catch (error) {
    const problem = error as CsvError;
    return bad({
      file,
      line: Number(problem.lines ?? 1),
      found: problem.message,
      expected: 'a table with commas between columns',
      mend: 'Check the quotes on this line.',
    });
  }
}

function readHeader(header: Line, file: string) {
  const problems: Problem[] = [];
  const columns: ColumnPlan[] = [];
  let time: TimeColumn | null = null;
  for (const [index, cell] of header.cells.entries()) {
    const [, title = cell, unit] = /^([^[\]]*?)\s*(?:\[([^[\]]+)\])?$/.exec(cell) ?? [];
    const problem = (found: string, expected: string, mend: string) =>
      problems.push({ file, line: header.line, field: cell, found, expected, mend });
    if (title === 'clock' || title === 'elapsed') {
      if (title === 'elapsed' && (unit === undefined || unitOf(unit, ['min']) === undefined)) {
        problem(`"${cell}"`, 'elapsed time in minutes', 'Write the title as: elapsed [min]');
      }
      if (time) problem('a second column of time', 'one column of time', 'Keep clock or elapsed.');
      time = { index, kind: title };
      continue;
    }
    const channel = CHANNELS.find((name) => name === title);
    if (!channel) {
      const close = nearest(title, CHANNELS);
      problem(
        `the column "${title}"`,
        `clock, elapsed or one of: ${CHANNELS.join(', ')}`,
        close ? `Did you mean "${close}"?` : 'Rename the column or take it out.',
      );
      continue;
    }
    const units = ACCEPTED_UNITS[channel];
    const known = unit === undefined ? undefined : unitOf(unit, units);
    if (known === undefined) {
      problem(
        unit === undefined ? 'no unit in the title' : `the unit "${unit}"`,
        `${channel} in ${units.join(' or ')}`,
        `Write the title as: ${channel} [${units[0]}]`,
      );
      continue;
    }
    if (columns.some((column) => column.channel === channel)) {
      problem(`a second column "${channel}"`, 'each channel once', 'Take one of the two out.');
      continue;
    }
    columns.push({ channel, index, unit: known });
  }
  if (!time) {
    problems.push({
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

function readRows(
  body: readonly Line[],
  time: TimeColumn,
  columns: readonly ColumnPlan[],
  titles: readonly string[],
  file: string,
  begin: Temporal.PlainDateTime,
): Outcome<VitalsTable> {
  const problems: Problem[] = [];
  const rows: VitalsRow[] = [];
  for (const { line, cells } of body) {
    const problem = (index: number, found: string, expected: string, mend: string) =>
      problems.push({
        file,
        line,
        field: titles[index] ?? `column ${index + 1}`,
        found,
        expected,
        mend,
      });
    if (cells.length !== titles.length) {
      problems.push({
        file,
        line,
        found: `${cells.length} columns`,
        expected: `${titles.length} columns, as in the header`,
        mend:
          cells.length > titles.length
            ? 'A decimal comma splits a number in two: write 37.8, not 37,8.'
            : 'Leave a cell empty where there is no reading, but keep its comma.',
      });
      continue;
    }
    const previous = rows.at(-1)?.minute ?? null;
    const minute = readTime(cells[time.index] as string, time.kind, begin, previous);
    if (typeof minute === 'string') {
      problem(time.index, describe(cells[time.index]), minute, 'Mend the time on this line.');
      continue;
    }
    const values: Partial<Record<ChannelName, number>> = {};
    for (const { channel, index, unit } of columns) {
      const cell = cells[index] as string;
      if (cell === '' || cell === '-') continue;
      const shown = /^-?\d+(\.\d+)?$/.test(cell) ? Number(cell) : Number.NaN;
      if (Number.isNaN(shown)) {
        problem(
          index,
          describe(cell),
          'a number with a decimal point, or an empty cell',
          /^\d+,\d+$/.test(cell) ? `Write ${cell.replace(',', '.')}.` : 'Mend or empty the cell.',
        );
        continue;
      }
      const value = toChannelUnit(shown, unit);
      const [low, high] = POSSIBLE[channel];
      if (value < low || value > high) {
        problem(
          index,
          `${cell} ${unit}`,
          `between ${low} and ${high} ${CHANNEL_UNITS[channel]}`,
          'Check the digits and the unit in the header.',
        );
        continue;
      }
      values[channel] = value;
    }
    const disorder = pressureDisorder(values);
    if (disorder) {
      problems.push({
        file,
        line,
        found: disorder,
        expected: 'diastolic at most mean, mean at most systolic',
        mend: 'Check whether two columns or two digits were exchanged.',
      });
    }
    rows.push({ line, minute, values });
  }
  return problems.length > 0
    ? bad(...problems)
    : good({ channels: columns.map((c) => c.channel), rows });
}

/** Minutes since the start of anesthesia, or what was expected instead. */
function readTime(
  cell: string,
  kind: TimeColumn['kind'],
  begin: Temporal.PlainDateTime,
  previous: number | null,
): number | string {
  let minute: number;
  if (kind === 'elapsed') {
    if (!/^-?\d+(\.\d+)?$/.test(cell)) return 'minutes such as 5 or 2.5';
    minute = Number(cell);
  } else {
    if (!/^([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?$/.test(cell)) return 'a time such as 09:45';
    const at = begin.toPlainDate().toPlainDateTime(Temporal.PlainTime.from(cell));
    minute = at.since(begin).total('minutes');
    // A clock that falls back by more than half a day has passed midnight; any other step back is a mistake. The first
    // line is set against the start of anesthesia, on either side of midnight.
    while (minute < (previous ?? 0) - 12 * 60) minute += 24 * 60;
    if (previous === null && minute > 12 * 60) minute -= 24 * 60;
  }
  return previous !== null && minute <= previous ? 'a time later than on the line before' : minute;
}

function toChannelUnit(value: number, unit: string): number {
  if (unit === 'F') return toCelsius(value, 'F');
  if (unit === 'kPa') return (value * 1000) / PASCAL_PER_MMHG;
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
