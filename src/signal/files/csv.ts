import { CsvError } from 'csv-parse/sync';
import { type CellPlace, cellPlaces } from '../../record/monitor-table/cell-place.js';
import { quotePlace } from '../../record/monitor-table/table-text.js';
import type { Outcome, Problem } from '../../record/problem.js';
import { bad, good } from '../../record/problem.js';
import { shortened } from '../../record/refusal.js';
import { hertz, seconds } from '../../units/brands.js';
import type { Channel, Waveform } from '../waveform.js';
import { eachRow, type TakeRow } from './csv-rows.js';
import type { TimeColumn } from './csv-time.js';
import { samplingRateOf } from './csv-time.js';
import { Growing } from './growing.js';
import { MOST_PROBLEMS, refuse } from './refuse.js';

/**
 * Reads a waveform as comma-, semicolon- or tab-separated text with a header row: `time`, `time [s]`
 * or `time [ms]` (elapsed) or no time column and a sampling rate from the case record; every other
 * column is a channel, `NAME [unit]`. An empty cell is NaN.
 */
export function readWaveformCsv(
  text: string,
  file: string,
  options: { readonly samplingRate?: number } = {},
): Outcome<Waveform> {
  const stated = checkStatedRate(file, options.samplingRate);
  if (!stated.ok) return stated;
  const table = readTable(text, file);
  if (!table.ok) return table;
  const { columns, rowLines, place } = table.value;
  const time = columns.find((column) => column.secondsPerUnit !== null);
  const channelColumns = columns.filter((column) => column !== time);
  const rate = time
    ? samplingRateOf(
        timeColumn(time, rowLines, (line) => place(line, columns.indexOf(time))),
        file,
        stated.value,
      )
    : rateWithoutTimes(file, stated.value);
  if (!rate.ok) return rate;

  const channels: Channel[] = channelColumns.map((column) => ({
    label: column.label,
    unit: column.unit,
    samplingRate: hertz(rate.value),
    samples: column.values.all(),
  }));
  return good({
    format: 'CSV',
    channels,
    annotations: [],
    startsAt: null,
    duration: seconds(rowLines.length / rate.value),
  });
}

interface Column {
  /** The header cell, for problems. */
  readonly name: string;
  readonly label: string;
  readonly unit: string;
  /** For the time column; null for a channel. */
  readonly secondsPerUnit: number | null;
  readonly values: Growing;
}

interface Table {
  readonly columns: readonly Column[];
  /** 1-based line of each row. */
  readonly rowLines: readonly number[];
  readonly place: CellPlace;
}

function timeColumn(
  column: Column,
  rowLines: readonly number[],
  place: TimeColumn['place'],
): TimeColumn {
  const perUnit = column.secondsPerUnit ?? 1;
  return {
    name: column.name,
    seconds: column.values.all().map((value) => value * perUnit),
    lines: rowLines,
    place,
  };
}

function checkStatedRate(file: string, rate: number | undefined): Outcome<number | undefined> {
  if (rate === undefined || (rate > 0 && Number.isFinite(rate))) return good(rate);
  return bad({
    kind: 'a sampling rate that does not fit',
    file,
    field: 'sampling rate',
    found: `${rate}`,
    expected: 'a number of samples per second above 0',
    mend: 'Correct the sampling rate in the case record.',
  });
}

function rateWithoutTimes(file: string, stated: number | undefined): Outcome<number> {
  if (stated !== undefined) return good(stated);
  return bad({
    kind: 'samples without a sampling rate',
    file,
    line: 1,
    found: 'neither a time column nor a sampling rate',
    expected: 'a column "time [s]" or "time [ms]", or a sampling rate in the case record',
    mend: 'State the sampling rate in the case record, or export the time with the samples.',
  });
}

function readTable(text: string, file: string): Outcome<Table> {
  const delimiter = delimiterOf(text);
  const problems: Problem[] = [];
  const report = (problem: Omit<Problem, 'file'>): void => {
    if (problems.length < MOST_PROBLEMS) problems.push({ file, ...problem });
  };
  const place = cellPlaces(text, delimiter);
  const readNumber = numberReader(delimiter);
  const rowLines: number[] = [];
  let columns: readonly Column[] | null = null;

  const readRow: TakeRow = (cells, line) => {
    if (columns === null) {
      columns = readHeaderRow(cells, line, place, report);
      return;
    }
    if (cells.length !== columns.length) {
      report({
        kind: 'a row with too many or too few cells',
        line,
        found: `${cells.length} cells`,
        expected: `${columns.length} cells, as in the header row`,
        mend:
          delimiter === ','
            ? 'Fill the row up; if it has decimal commas, separate the columns with semicolons.'
            : 'Fill the row up or remove the surplus cells.',
      });
      return;
    }
    rowLines.push(line);
    for (const [index, column] of columns.entries()) {
      const cell = cells[index]!;
      const value = readNumber(cell);
      if (value === null || (Number.isNaN(value) && column.secondsPerUnit !== null)) {
        report({
          kind: 'a sample that is no number',
          line,
          ...place(line, index),
          field: column.name,
          found: cell === '' ? 'an empty cell' : `"${shortened(cell)}"`,
          expected:
            column.secondsPerUnit === null
              ? 'a number, or an empty cell where there is no sample'
              : 'elapsed time as a number',
          mend: 'Write the number with one decimal sign, the same in the whole file.',
        });
      }
      column.values.add(value ?? Number.NaN);
    }
  };

  try {
    eachRow(text, delimiter, readRow);
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return bad({
      kind: 'quotes that do not pair up',
      file,
      ...quotePlace(error, text),
      found: 'quotation marks that do not pair up',
      expected: 'plain numbers between separators',
      mend: 'Remove the quotation marks from the numbers.',
    });
  }
  if (problems.length > 0) return refuse(problems);
  if (columns === null || rowLines.length === 0) {
    return bad({
      kind: 'a waveform table without rows',
      file,
      line: columns === null ? 1 : 2,
      found: columns === null ? 'an empty file' : 'a header row and nothing below it',
      expected: 'a header row and rows of samples',
      mend: 'Export the waveform again.',
    });
  }
  return good({ columns, rowLines, place });
}

/** Where semicolons or tabs separate the columns, a comma is free to be the decimal sign. */
function delimiterOf(text: string): ',' | ';' | '\t' {
  const header = /^[^\r\n]*/.exec(text.replace(/^\ufeff?[\r\n]*/, ''))?.[0] ?? '';
  if (header.includes(';')) return ';';
  return header.includes('\t') ? '\t' : ',';
}

function readHeaderRow(
  cells: readonly string[],
  line: number,
  place: CellPlace,
  report: (problem: Omit<Problem, 'file'>) => void,
): readonly Column[] {
  const columns = cells.map(readHeaderCell);
  const seen = new Set<string>();
  for (const [index, { name, label, secondsPerUnit }] of columns.entries()) {
    if (label === '' || /^[-+\d.,]+$/.test(name)) {
      report({
        kind: 'columns of samples that are not understood',
        line,
        ...place(line, index),
        field: `column ${index + 1}`,
        found: name === '' ? 'no name' : `the number ${name} in the header row`,
        expected: 'a name such as "II [mV]"',
        mend: 'Give every column a name in the first row.',
      });
    }
    if (label.toLowerCase() === 'time' && secondsPerUnit === null) {
      report({
        kind: 'columns of samples that are not understood',
        line,
        ...place(line, index),
        field: name,
        found: `"${shortened(name)}"`,
        expected: '"time", "time [s]" or "time [ms]", elapsed since the first sample',
        mend: 'Export the elapsed time in seconds or milliseconds.',
      });
    }
    // Two columns for one lead, or two clocks, leave open which one is meant.
    const key = label.toLowerCase();
    if (label !== '' && seen.has(key)) {
      report({
        kind: 'columns of samples that are not understood',
        line,
        ...place(line, index),
        field: name,
        found: `a second column "${shortened(label)}"`,
        expected: 'every column name once',
        mend: 'Rename or remove one of the two columns.',
      });
    }
    seen.add(key);
  }
  if (columns.every(({ secondsPerUnit }) => secondsPerUnit !== null)) {
    report({
      kind: 'columns of samples that are not understood',
      line,
      found: 'no channel',
      expected: 'at least one column of samples such as "II [mV]"',
      mend: 'Export the waveform with its channels.',
    });
  }
  return columns;
}

const SECONDS_PER: Readonly<Record<string, number>> = { '': 1, s: 1, ms: 0.001 };

function readHeaderCell(name: string): Column {
  const bracket = name.endsWith(']') ? name.lastIndexOf('[') : -1;
  const label = (bracket < 0 ? name : name.slice(0, bracket)).trim();
  const unit = bracket < 0 ? '' : name.slice(bracket + 1, -1).trim();
  const isTime = label.toLowerCase() === 'time' && Object.hasOwn(SECONDS_PER, unit);
  const secondsPerUnit = isTime ? (SECONDS_PER[unit] ?? null) : null;
  return { name, label, unit, secondsPerUnit, values: new Growing() };
}

/**
 * Reads a cell: NaN where it is empty, null where it is no number. A decimal comma is read where
 * commas do not separate columns, as long as no other cell has a decimal point: a file with both
 * may use one of them to group thousands.
 */
function numberReader(delimiter: string): (cell: string) => number | null {
  const NUMBER = /^[-+]?(\d+([.,]\d*)?|[.,]\d+)([eE][-+]?\d+)?$/;
  let sign: '.' | ',' | null = null;
  return (cell) => {
    if (!NUMBER.test(cell)) return cell === '' || /^nan$/i.test(cell) ? Number.NaN : null;
    const used = cell.includes('.') ? '.' : cell.includes(',') ? ',' : null;
    if (used === ',' && delimiter === ',') return null;
    sign ??= used;
    if (used !== null && used !== sign) return null;
    const value = Number(used === ',' ? cell.replace(',', '.') : cell);
    return Number.isFinite(value) ? value : null;
  };
}
