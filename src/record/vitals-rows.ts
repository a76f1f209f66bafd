import { toCelsius } from '../units/convert.js';
import { roundTo } from '../units/round.js';
import { alike, firstProblems } from './first-problems.js';
import type { CellPlace } from './monitor-table/cell-place.js';
import { bad, good, type Outcome, type Problem } from './problem.js';
import type { ProblemKind } from './problem-kind.js';
import { describe } from './refusal.js';
import type { ChannelName } from './vocabulary.js';

/** One line of the vitals file. */
interface VitalsRow {
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

/** The units that a table may give a channel in; the first is the usual one. */
export const ACCEPTED_UNITS: Readonly<Record<ChannelName, readonly string[]>> = {
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

export interface ColumnPlan {
  readonly channel: ChannelName;
  readonly index: number;
  readonly unit: string;
}

export interface Line {
  /** 1-based line of the file. */
  readonly line: number;
  readonly cells: readonly string[];
}

/** How the cells of a line are read. */
export interface RowPlan {
  readonly titles: readonly string[];
  readonly columns: readonly ColumnPlan[];
  /** The column that a wrong time is reported at. */
  readonly timeAt: number;
  /** Minutes since the start of anesthesia, or what was expected instead. */
  readonly minute: (cells: readonly string[]) => number | string;
  readonly isMissing: (cell: string) => boolean;
  /** NaN where the cell holds no number. */
  readonly number: (cell: string) => number;
  /** What a cell of readings must hold, and what to do about one that does not. */
  readonly expected: string;
  readonly mend: (cell: string) => string;
  /** What to do about times of many lines that are not understood. */
  readonly clockMend: string;
  /** How a cell is told to hold no reading. */
  readonly noReading: (cell: string) => string;
  readonly place: CellPlace;
  /** What more cells than titles usually come from. */
  readonly surplus: string;
}

/** What is expected of a time that goes back. */
const LATER = 'a time later than on the line before';

/** More lines than anybody mends one by one. Not a clinical number. */
const MOST_SHOWN = 20;

/** Lines to readings in minutes since the start of anesthesia, in the channels' own units. */
export function readRows(body: readonly Line[], plan: RowPlan, file: string): Outcome<VitalsTable> {
  const { titles, columns, timeAt } = plan;
  const problems: Problem[] = [];
  const rows: VitalsRow[] = [];
  for (const { line, cells } of body) {
    const problem = (
      kind: ProblemKind,
      index: number,
      found: string,
      expected: string,
      mend: string,
    ) =>
      problems.push({
        kind,
        file,
        line,
        ...plan.place(line, index),
        field: titles[index] ?? `column ${index + 1}`,
        found,
        expected,
        mend,
      });
    if (cells.length !== titles.length) {
      problems.push({
        kind: 'a line with too many or too few cells',
        file,
        line,
        found: `${cells.length} columns`,
        expected: `${titles.length} columns, as in the header`,
        mend:
          cells.length > titles.length
            ? plan.surplus
            : 'Leave a cell empty where there is no reading, but keep its separator.',
      });
      continue;
    }
    const told = plan.minute(cells);
    const previous = rows.at(-1)?.minute ?? null;
    const isBehind = typeof told === 'number' && previous !== null && told <= previous;
    const minute = isBehind ? LATER : told;
    if (typeof minute === 'string') {
      problem(
        'a line without its time',
        timeAt,
        describe(cells[timeAt]),
        minute,
        isBehind && told === previous
          ? 'Keep one line of each time, or export the table with seconds.'
          : 'Mend the time on this line, or take the line out.',
      );
      continue;
    }
    const values: Partial<Record<ChannelName, number>> = {};
    for (const { channel, index, unit } of columns) {
      const cell = cells[index] as string;
      if (plan.isMissing(cell)) continue;
      const shown = plan.number(cell);
      if (Number.isNaN(shown)) {
        problem(
          'a reading that is no number',
          index,
          describe(cell),
          plan.expected,
          plan.mend(cell),
        );
        continue;
      }
      const value = toChannelUnit(shown, unit);
      const [low, high] = POSSIBLE[channel];
      if (value < low || value > high) {
        problem(
          'an impossible reading',
          index,
          `${cell} ${unit}`,
          `between ${low} and ${high} ${CHANNEL_UNITS[channel]}`,
          `Check the digits and the unit in the header. ${plan.noReading(cell)}`,
        );
        continue;
      }
      values[channel] = value;
    }
    const disorder = pressureDisorder(values);
    if (disorder) {
      problems.push({
        kind: 'pressures out of order',
        file,
        line,
        found: disorder,
        expected: 'diastolic at most mean, mean at most systolic',
        mend: 'Check whether two columns or two digits were exchanged.',
      });
    }
    rows.push({ line, minute, values });
  }
  const together = ({ kind, expected }: Problem) =>
    kind === 'a line without its time' && expected !== LATER ? plan.clockMend : null;
  return problems.length > 0
    ? bad(...firstProblems(alike(problems, together), MOST_SHOWN, file))
    : good({ channels: columns.map((column) => column.channel), rows });
}

/** Decimals of a reading in another unit: no monitor tells a tenth of a degree or of a kilopascal more finely. Not a clinical number. */
const CONVERTED = 2;

function toChannelUnit(value: number, unit: string): number {
  if (unit === 'F') return roundTo(toCelsius(value, 'F'), CONVERTED);
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
