import { namedChannel, namesPressure } from './named-channel.js';
import type { SampleColumn } from './sample-columns.js';
import { isUnit } from './sample-units.js';

/** A sample of a table in which each line tells one reading. */
export interface SampleReadings {
  readonly names: SampleColumn;
  readonly values: SampleColumn;
  readonly units: SampleColumn | null;
  /** The lines of each name as if they were a column, in the order in which the names first stand. */
  readonly named: readonly SampleReading[];
  readonly doubts: readonly string[];
}

/** The lines of one name. */
export interface SampleReading extends SampleColumn {
  readonly named: string;
  /** The units that its lines tell, each once; '' where a line tells none. */
  readonly units: readonly string[];
}

/** Titles of units and of values in English, Spanish, German and French. Common practice. */
const UNIT_TITLE = /^(unit|einheit|unidad|unit[eé])/i;
const VALUE_TITLE = /val|wert|mess|read|lect|medid|result|mesure/i;

/** More names than any monitor has measurements: a column of remarks. Not a clinical number. */
const MOST_NAMES = 150;

/** The columns of names, values and units; null where no column names measurements below each other. */
export function sampleReadings(columns: readonly SampleColumn[]): SampleReadings | null {
  const names = columns.find(isOfNames);
  if (!names) return null;
  const rest = columns.filter((column) => column !== names);
  const isOfMeasurement = names.cells.map(isName);
  const filled = ({ cells }: SampleColumn) =>
    cells.filter((cell, row) => /[\p{L}\p{N}%]/u.test(cell) && isOfMeasurement[row]);
  const most = (column: SampleColumn, is: (cell: string) => boolean) => {
    const cells = filled(column);
    return cells.length > 0 && cells.filter(is).length * 2 > cells.length;
  };
  const units =
    rest.find((column) => UNIT_TITLE.test(column.title) || most(column, isUnit)) ?? null;
  const possible = rest.filter(
    (column) => column !== units && most(column, (cell) => /^-?\d/.test(cell)),
  );
  const values = possible.find(({ title }) => VALUE_TITLE.test(title)) ?? possible[0];
  if (!values) return null;
  const others = possible.filter((column) => column !== values);
  return {
    names,
    values,
    units,
    named: [...new Set(names.cells)]
      .filter((name) => name !== '')
      .map((name, index) => {
        const rows = [...names.cells.keys()].filter((row) => names.cells[row] === name);
        const told = [...new Set(rows.map((row) => units?.cells[row] ?? ''))];
        return {
          index,
          title: name,
          named: name,
          unit: told.find((unit) => unit !== '') ?? '',
          units: told,
          channel: namedChannel(name),
          cells: rows.map((row) => values.cells[row] as string),
        };
      }),
    doubts:
      others.length === 0
        ? []
        : [
            `"${values.title}" is taken for the values, and not ${others.map(({ title }) => `"${title}"`).join(', ')}`,
          ],
  };
}

const isName = (cell: string): boolean => namedChannel(cell) !== null || namesPressure(cell);

/** Whether a column holds names of measurements, of several in turn or on most lines. */
function isOfNames({ cells }: SampleColumn): boolean {
  const different = new Set(cells);
  if (different.size > MOST_NAMES) return false;
  const channels = new Set(
    [...different].filter(isName).map((cell) => namedChannel(cell)?.channel ?? 'pressures'),
  );
  return channels.size > 1 || cells.filter(isName).length * 2 > cells.length;
}
