import type { Temporal } from 'temporal-polyfill';
import { nearest } from '../nearest.js';
import { bad, good, type Outcome, type Problem } from '../problem.js';
import { unitOf } from '../quantity.js';
import { readRows } from '../read-rows.js';
import { describe, shortened } from '../refusal.js';
import {
  ACCEPTED_UNITS,
  type ColumnPlan,
  type Line,
  type RowPlan,
  type VitalsTable,
} from '../vitals-rows.js';
import { partsOf } from './cell-form.js';
import { type CellPlace, cellPlaces } from './cell-place.js';
import { minuteReader } from './minute-reader.js';
import { channelsOf, SEPARATORS, type TableForm } from './table-form.js';
import { cellsOf, decoded } from './table-text.js';

/**
 * A monitor's own table to readings in minutes since the start of anesthesia.
 * @param form how this monitor writes, from the clinic's file
 * @param begin start of anesthesia in the time zone of the clinic
 */
export function readTable(
  bytes: Uint8Array,
  file: string,
  begin: Temporal.ZonedDateTime,
  form: TableForm,
): Outcome<VitalsTable> {
  const text = decoded(bytes, form.encoding, file);
  if (!text.ok) return text;
  const separator = SEPARATORS[form['between columns']];
  const lines = cellsOf(text.value, separator, file);
  if (!lines.ok) return lines;
  const header = lines.value.find(({ line }) => line === form['titles on line']);
  if (!header) {
    return bad({
      kind: 'titles that are not on their line',
      file,
      line: form['titles on line'],
      found: 'no titles on this line',
      expected: `the titles of the form "${form.name}"`,
      mend: 'Mend "titles on line" in the clinic\'s file, or export the table again.',
    });
  }
  const plan = planOf(header, file, begin, form, cellPlaces(text.value, separator));
  if (!plan.ok) return plan;
  const first = Math.max(header.line + 1, form['readings from line'] ?? 1);
  const body = lines.value.filter(({ line }) => line >= first);
  if (form['newest first'] === 'yes') body.reverse();
  return readRows(body, plan.value, file);
}

function planOf(
  header: Line,
  file: string,
  begin: Temporal.ZonedDateTime,
  form: TableForm,
  place: CellPlace,
): Outcome<RowPlan> {
  const titles = header.cells;
  const problems: Problem[] = [];
  const find = (named: string | number): number => {
    if (typeof named === 'number' && named <= titles.length) return named - 1;
    const title = String(named);
    const index = titles.indexOf(title);
    const again = titles.indexOf(title, index + 1);
    if (index < 0 || again > 0) {
      const close = nearest(title, titles);
      problems.push({
        kind: 'columns that the form does not find',
        file,
        line: header.line,
        ...place(header.line, again),
        field: title,
        found: index < 0 ? `no column "${shortened(title)}"` : `two columns "${shortened(title)}"`,
        expected: `the columns of the form "${form.name}", each once`,
        mend:
          index >= 0
            ? `Name the one that is meant by its number: "column: ${index + 1}" or "column: ${again + 1}".`
            : close
              ? `The table has a column "${close}": mend the form if that is meant.`
              : "Mend the form in the clinic's file, or export the table again.",
      });
    }
    return index;
  };
  const all = form['columns in all'] ?? titles.length;
  if (titles.length !== all) {
    problems.push({
      kind: 'columns that the form does not find',
      file,
      line: header.line,
      found: `${titles.length} columns`,
      expected: `${all} columns, as in the form "${form.name}", which names some by their number`,
      mend: 'Make a form of its own for tables with these columns: "thrice table FILE" proposes one.',
    });
  }
  const columns = form.columns.flatMap((one): ColumnPlan[] => {
    const index = find(one.column);
    const marks = new Set(['', '-', ...form.missing, ...one.missing]);
    const isMissing = (cell: string) => marks.has(cell);
    const { written } = one;
    return channelsOf(one).flatMap((channel) => {
      // The form was checked against the units when the clinic's file was read.
      const unit = unitOf(one.unit, ACCEPTED_UNITS[channel]);
      if (unit === undefined) return [];
      const within = written && {
        pattern: written.pattern,
        part: (cell: string) => partsOf(cell, written)?.get(channel) ?? null,
      };
      return [{ channel, index, unit, isMissing, ...(within && { within }) }];
    });
  });
  const timeAt = find(form.time.column);
  const dayAt = form.day ? find(form.day.column) : -1;
  if (problems.length > 0) return bad(...problems);
  const comma = form.decimal === 'comma';
  const decimal = comma ? /^-?\d+(,\d+)?$/ : /^-?\d+(\.\d+)?$/;
  return good({
    titles,
    columns,
    timeAt,
    minute: minuteReader(form, begin, timeAt, dayAt),
    number: (cell) => (decimal.test(cell) ? Number(cell.replace(',', '.')) : Number.NaN),
    expected: `a number with a decimal ${form.decimal}, an empty cell or a mark for a missing reading`,
    mend: (cell) =>
      `If ${describe(cell)} means that there is no reading, add it to "missing" of the form "${form.name}"; else mend the cell.`,
    noReading: (cell) =>
      `If the monitor writes ${describe(cell)} where there is no reading, add it to "missing" of the form "${form.name}".`,
    place,
    clockMend: `Mend "written" of the form "${form.name}"; where the day is another, see whether the file and "surgery.date" are of this patient.`,
    orderMend: orderMend(form),
    surplus: 'Check "between columns" and "decimal" of the form.',
  });
}

const orderMend = ({ name, 'newest first': isNewestFirst }: TableForm): string =>
  isNewestFirst === 'yes'
    ? `If this table begins with its oldest line, take "newest first" out of the form "${name}"; else sort the lines, the latest first.`
    : `If the monitor writes its latest line first, add "newest first: yes" to the form "${name}"; else sort the lines by their time.`;
