import { bad, good, type Outcome } from '../problem.js';
import type { NamedReading, ReadingPlan } from '../read-readings.js';
import type { ColumnPlan, Line } from '../vitals-rows.js';
import { TABLE_UNITS } from './carbon-dioxide.js';
import { channelsOf } from './cell-form.js';
import type { CellPlace } from './cell-place.js';
import { columnPlans } from './column-plans.js';
import { minuteReader, type Start } from './minute-reader.js';
import { spelledUnit } from './spelled-unit.js';
import type { TableForm } from './table-form.js';
import { Columns, tablePlan } from './table-plan.js';

/** How a table with one reading a line is read. */
export function readingPlan(
  header: Line,
  file: string,
  start: Start,
  form: TableForm,
  place: CellPlace,
): Outcome<ReadingPlan> {
  const {
    'names in': names,
    'values in': values,
    'units in': units,
  } = form['one reading a line'] as NonNullable<TableForm['one reading a line']>;
  const columns = new Columns(header, form, file, place);
  const [nameAt, valueAt] = [columns.find(names), columns.find(values)];
  const unitAt = units === undefined ? null : columns.find(units);
  const timeAt = columns.find(form.time.column);
  const dayAt = form.day ? columns.find(form.day.column) : -1;
  if (columns.problems.length > 0) return bad(...columns.problems);
  return good({
    ...tablePlan(header, form, timeAt, place),
    form: form.name,
    nameAt,
    valueAt,
    unitAt,
    named: new Map(form.readings.map((one) => [one.called, namedReading(one, valueAt, form)])),
    notTaken: new Set(form['not taken']),
    clock: () => minuteReader(form, start, timeAt, dayAt),
  });
}

function namedReading(
  reading: TableForm['readings'][number],
  valueAt: number,
  form: TableForm,
): NamedReading {
  const { called, unit } = reading;
  const channels = channelsOf(reading);
  const units = channels.map((channel) => TABLE_UNITS[channel]);
  const shared = (units[0] ?? []).filter((one) => units.every((all) => all.includes(one)));
  // A table holds a few units over and over.
  const plans = new Map<string, readonly ColumnPlan[] | null>();
  const plan = (told: string): readonly ColumnPlan[] | null => {
    const spelled = told === '' ? (unit ?? '') : told;
    const known = spelledUnit(spelled, shared);
    const isUnsaid = known === '%' && channels.includes('EtCO2') && !form['EtCO2 in percent'];
    return known === undefined || isUnsaid ? null : columnPlans(reading, valueAt, known, form);
  };
  return {
    called,
    channels,
    isMissing: (cell) =>
      cell === '' || cell === '-' || [...form.missing, ...reading.missing].includes(cell),
    columns: (told) => {
      const known = plans.get(told);
      if (known !== undefined) return known;
      const made = plan(told);
      plans.set(told, made);
      return made;
    },
    units: shared,
    unitMend: unitMend(reading, form),
  };
}

const unitMend =
  (
    { called, unit, channel, written }: TableForm['readings'][number],
    { name, 'EtCO2 in percent': ofAir }: TableForm,
  ) =>
  (told: string): string => {
    if (told.includes('%') && channelsOf({ channel, written }).includes('EtCO2') && !ofAir) {
      return `Add to the form "${name}" what the percent are of, such as: EtCO2 in percent: { of: dry gas, barometric pressure: 745 mmHg }.`;
    }
    if (told === '' && unit === undefined)
      return `Add "unit" to "${called}" in the form "${name}".`;
    return `Where the table spells a unit in its own way, take "units in" out of the form "${name}" and give each of its readings its "unit".`;
  };
