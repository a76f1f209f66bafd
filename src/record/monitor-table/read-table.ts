import type { Temporal } from 'temporal-polyfill';
import { bad, good, type Outcome } from '../problem.js';
import { readReadings } from '../read-readings.js';
import { readRows } from '../read-rows.js';
import type { Line, RowPlan, VitalsTable } from '../vitals-rows.js';
import type { CellPlace } from './cell-place.js';
import { columnPlans } from './column-plans.js';
import { cutTable } from './cut-table.js';
import { minuteReader, type Start } from './minute-reader.js';
import { secondPatient } from './one-patient.js';
import { readingPlan } from './reading-plan.js';
import type { TableForm } from './table-form.js';
import { Columns, tablePlan } from './table-plan.js';
import { decoded } from './table-text.js';

/**
 * A monitor's own table to readings in minutes since the start of anesthesia.
 * @param begin start of anesthesia in the time zone of the clinic
 * @param form how this monitor writes, from the clinic's file
 * @param ahead minutes by which the clock of the monitor is known to be ahead
 */
export function readTable(
  bytes: Uint8Array,
  file: string,
  begin: Temporal.ZonedDateTime,
  form: TableForm,
  ahead = 0,
): Outcome<VitalsTable> {
  const text = decoded(bytes, form.encoding, file);
  if (!text.ok) return text;
  const cut = cutTable(text.value, form, file);
  if (!cut.ok) return cut;
  const { lines, place } = cut.value;
  const header = lines.find(({ line }) => line === form['titles on line']);
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
  const other = secondPatient(text.value, lines, header, place, file);
  if (other) return bad(other);
  const first = Math.max(header.line + 1, form['readings from line'] ?? 1);
  const body = lines.filter(({ line }) => line >= first);
  if (form['newest first'] === 'yes') body.reverse();
  const start = { begin, ahead };
  if (form['one reading a line']) {
    const plan = readingPlan(header, file, start, form, place);
    return plan.ok ? readReadings(body, plan.value, file) : plan;
  }
  const plan = rowPlan(header, file, start, form, place);
  return plan.ok ? readRows(body, plan.value, file) : plan;
}

function rowPlan(
  header: Line,
  file: string,
  start: Start,
  form: TableForm,
  place: CellPlace,
): Outcome<RowPlan> {
  const titles = new Columns(header, form, file, place);
  const columns = form.columns.flatMap((one) =>
    columnPlans(one, titles.find(one.column), one.unit, form),
  );
  const timeAt = titles.find(form.time.column);
  const dayAt = form.day ? titles.find(form.day.column) : -1;
  if (titles.problems.length > 0) return bad(...titles.problems);
  return good({
    ...tablePlan(header, form, timeAt, place),
    columns,
    minute: minuteReader(form, start, timeAt, dayAt),
  });
}
