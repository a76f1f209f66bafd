import type { Temporal } from 'temporal-polyfill';
import { dayClock } from '../day-clock.js';
import { nearest } from '../nearest.js';
import { bad, good, type Outcome, type Problem } from '../problem.js';
import { unitOf } from '../quantity.js';
import { describe, shortened } from '../refusal.js';
import {
  ACCEPTED_UNITS,
  type ColumnPlan,
  type Line,
  type RowPlan,
  readRows,
  type VitalsTable,
} from '../vitals-rows.js';
import { type CellPlace, cellPlaces } from './cell-place.js';
import { type ClockForm, readClock } from './clock-form.js';
import { SEPARATORS, type TableForm } from './table-form.js';
import { cellsOf, decoded } from './table-text.js';

/** A line further from the start of anesthesia is of another patient. Common practice. */
const FURTHEST_HOURS = 24;

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
  return readRows(
    lines.value.filter(
      ({ line }) => line > header.line && line >= (form['readings from line'] ?? 1),
    ),
    plan.value,
    file,
  );
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
  const find = (title: string): number => {
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
          index < 0 && close
            ? `The table has a column "${close}": mend the form if that is meant.`
            : "Mend the form in the clinic's file, or export the table again.",
      });
    }
    return index;
  };
  const columns = form.columns.flatMap(({ channel, column, unit }): ColumnPlan[] => {
    const index = find(column);
    // The form was checked against the units when the clinic's file was read.
    const known = unitOf(unit, ACCEPTED_UNITS[channel]);
    return known === undefined ? [] : [{ channel, index, unit: known }];
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
    isMissing: (cell) => cell === '' || cell === '-' || form.missing.includes(cell),
    number: (cell) => (decimal.test(cell) ? Number(cell.replace(',', '.')) : Number.NaN),
    expected: `a number with a decimal ${form.decimal}, an empty cell or a mark for a missing reading`,
    mend: (cell) =>
      `If ${describe(cell)} means that there is no reading, add it to "missing" of the form "${form.name}"; else mend the cell.`,
    noReading: (cell) =>
      `If the monitor writes ${describe(cell)} where there is no reading, add it to "missing" of the form "${form.name}".`,
    place,
    clockMend: `Mend "written" of the form "${form.name}"; where the day is another, see whether the file and "surgery.date" are of this patient.`,
    surplus: 'Check "between columns" and "decimal" of the form.',
  });
}

function minuteReader(
  { day, time }: TableForm,
  begin: Temporal.ZonedDateTime,
  timeAt: number,
  dayAt: number,
): RowPlan['minute'] {
  const { written } = time;
  if (typeof written === 'string') {
    const perMinute = written === 'seconds' ? 60 : 1;
    return (cells) => {
      const cell = (cells[timeAt] as string).replace(',', '.');
      return /^-?\d+(\.\d+)?$/.test(cell)
        ? Number(cell) / perMinute
        : `${written} from the start of anesthesia`;
    };
  }
  const sinceBegin = dayClock(begin);
  const dayForm = day ? (day.written as ClockForm) : null;
  return (cells) => {
    const clock = readClock(written, cells[timeAt] as string);
    const date = dayForm ? readClock(dayForm, cells[dayAt] as string) : clock;
    if (!clock?.time) return `a time written like ${written.pattern}`;
    if (!date) return `a day written like ${dayForm?.pattern}`;
    const minute =
      clock.offset === null || date.day === null
        ? sinceBegin(clock.time, date.day)
        : date.day
            .toZonedDateTime({ plainTime: clock.time, timeZone: clock.offset })
            .since(begin)
            .total('minutes');
    return Math.abs(minute) > FURTHEST_HOURS * 60
      ? `a time within ${FURTHEST_HOURS} hours of the start of anesthesia on ${begin.toPlainDate()}`
      : minute;
  };
}
