import { nearest } from './nearest.js';
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
import { agrees, noLineTells } from './read-rows.js';
import { describe, shortened } from './refusal.js';
import type {
  ColumnPlan,
  Line,
  MinuteReader,
  NoTime,
  TablePlan,
  VitalsRow,
  VitalsTable,
} from './vitals-rows.js';
import type { ChannelName } from './vocabulary.js';

/** What a name in a table with one reading a line stands for. */
export interface NamedReading {
  readonly called: string;
  readonly channels: readonly ChannelName[];
  readonly isMissing: (cell: string) => boolean;
  /** How its values are read in the unit that the line tells, empty where it tells none; null where that is no unit of it. */
  readonly columns: (told: string) => readonly ColumnPlan[] | null;
  readonly units: readonly string[];
  readonly unitMend: (told: string) => string;
}

/** How a table with one reading a line is read. */
export interface ReadingPlan extends TablePlan {
  /** The name of the form. */
  readonly form: string;
  readonly nameAt: number;
  readonly valueAt: number;
  /** Null where the lines tell no unit. */
  readonly unitAt: number | null;
  readonly named: ReadonlyMap<string, NamedReading>;
  readonly notTaken: ReadonlySet<string>;
  /** A clock that has read no line yet. */
  readonly clock: () => MinuteReader;
}

/** The lines of one name as far as they were read. */
interface Told {
  readonly minute: MinuteReader;
  last: { readonly at: number; readonly values: VitalsRow['values'] } | null;
}

/** Readings of one moment. */
interface Moment {
  readonly line: number;
  readonly values: Partial<Record<ChannelName, number>>;
  readonly lines: Partial<Record<ChannelName, number>>;
}

/**
 * Lines that each tell one reading with its name to readings in minutes since the start of anesthesia. The lines of a name
 * go on in time; those of different names may stand in any order. A name that the form does not tell is a problem, as it
 * may be one that the monitor has spelled otherwise.
 */
export function readReadings(
  body: readonly Line[],
  plan: ReadingPlan,
  file: string,
): Outcome<VitalsTable> {
  const problems: Problem[] = [];
  const unknown = new Map<string, Line>();
  const moments = new Map<number, Moment>();
  const told = new Map<string, Told>();
  const inTurn = plan.clock();
  for (const line of body) {
    const cells = withoutEmptyEnd(line.cells, plan.titles.length);
    const [name = '', value = ''] = [cells[plan.nameAt], cells[plan.valueAt]];
    if (plan.notTaken.has(name) || (name === '' && value === '')) continue;
    const problem = problemAt(line, plan, file);
    const misshapen = shapeProblem(line, cells, plan, file);
    const reading = plan.named.get(name);
    if (misshapen) problems.push(misshapen);
    else if (name === '') problems.push(noName(plan, problem));
    else if (!reading) {
      if (!unknown.has(name)) unknown.set(name, line);
    } else {
      const own = told.get(name) ?? { minute: plan.clock(), last: null };
      told.set(name, own);
      const minute = settled(inTurn(cells), own.minute(cells), plan);
      if (reading.isMissing(value)) continue;
      if (typeof minute !== 'number') {
        problems.push(timeProblem(minute, cells, problem));
        continue;
      }
      const read = readValue(cells, reading, plan, problem);
      const { last } = own;
      const isAgain = minute === last?.at;
      if (last && minute <= last.at && !(isAgain && agrees(read, last.values))) {
        problems.push(orderProblem(isAgain, cells, plan, problem));
        continue;
      }
      own.last = { at: minute, values: { ...(isAgain && last?.values), ...read.values } };
      problems.push(...read.problems);
      const moment = moments.get(minute) ?? { line: line.line, values: {}, lines: {} };
      for (const [channel, one] of Object.entries(read.values) as [ChannelName, number][]) {
        moment.values[channel] = one;
        moment.lines[channel] ??= line.line;
      }
      moments.set(minute, moment);
    }
  }
  if (unknown.size > 0) problems.unshift(unknownNames(unknown, plan, file));
  const rows = [...moments]
    .map(([minute, moment]) => ({ minute, ...moment }))
    .sort((one, other) => one.minute - other.minute);
  problems.push(...rows.flatMap(({ line, values }) => disorderAt(line, values, file)));
  if (rows.length === 0 && problems.length === 0 && body.length > 0) {
    problems.push(noLineTells(body, plan, file));
  }
  const channels = [...plan.named.values()].flatMap((one) =>
    told.has(one.called) ? one.channels : [],
  );
  return problems.length > 0 ? bad(...toldOnce(problems, plan, file)) : good({ channels, rows });
}

/**
 * The minute of a line. Names may stand one below the other, each from its first reading to its last, or in turn: where
 * the order of all lines and that of the lines of the name tell different times, such as on both sides of midnight, neither is sure.
 */
function settled(
  inTurn: number | NoTime,
  ofName: number | NoTime,
  { timeAt }: TablePlan,
): number | NoTime {
  if (typeof inTurn !== 'number') return inTurn;
  if (typeof ofName !== 'number' || ofName === inTurn) return ofName;
  return {
    at: timeAt,
    expected: 'a time that the order of the lines settles',
    mend: 'Sort the lines by their time, or export the table with the day on each line and a clock that no change of the clock shows twice.',
  };
}

/** What a line tells in its unit. */
function readValue(
  cells: readonly string[],
  reading: NamedReading,
  plan: ReadingPlan,
  problem: ReturnType<typeof problemAt>,
): ReadLine {
  const told = plan.unitAt === null ? '' : (cells[plan.unitAt] as string);
  const columns = reading.columns(told);
  if (columns) return valuesOf(cells, columns, plan, problem);
  const found = told === '' ? 'no unit' : describe(told);
  const expected = `${reading.channels.join(', ')} in ${reading.units.join(' or ')}`;
  const kind = 'a reading without a known unit';
  const at = plan.unitAt ?? plan.valueAt;
  return { values: {}, problems: [problem(kind, at, found, expected, reading.unitMend(told))] };
}

const noName = ({ nameAt }: ReadingPlan, problem: ReturnType<typeof problemAt>): Problem =>
  problem(
    'a name of a reading that the form does not tell',
    nameAt,
    'a value without a name',
    'the name of what the line tells',
    'Write the name, or take the line out.',
  );

/** Names that anybody reads. Not a clinical number. */
const MOST_NAMES = 12;

/** Tells the names that a form does not know, all at once, in the place of the first. */
function unknownNames(
  unknown: ReadonlyMap<string, Line>,
  plan: ReadingPlan,
  file: string,
): Problem {
  const [[first, line]] = [...unknown] as [[string, Line]];
  const names = [...unknown.keys()];
  const close = nearest(first, [...plan.named.keys()]);
  const listed = names.slice(0, MOST_NAMES).map((name) => JSON.stringify(shortened(name)));
  const more = names.length - listed.length;
  const isMeant = close === null ? '' : `If ${describe(close)} is meant, mend it in the form. `;
  return problemAt(line, plan, file)(
    'a name of a reading that the form does not tell',
    plan.nameAt,
    `${listed.join(', ')}${more > 0 ? ` and ${more} more names` : ''}`,
    `names under "readings" or "not taken" of the form "${plan.form}"`,
    `${isMeant}Add what is wanted to "readings"; for the rest write, in the form: not taken: [${listed.join(', ')}${more > 0 ? ', …' : ''}].`,
  );
}
