import type { z } from 'zod';
import { unitOf } from '../quantity.js';
import { refusal } from '../refusal.js';
import { TABLE_UNITS } from './carbon-dioxide.js';
import { channelsOf } from './cell-form.js';
import type { TableForm } from './table-form.js';

type Complain = (
  found: string,
  expected: string,
  mend: string,
  ...path: readonly (string | number)[]
) => void;

/** What a form says that cannot be, or leaves out that must be said. */
export function contradictionsOf(form: TableForm, context: z.RefinementCtx): void {
  const complain: Complain = (found, expected, mend, ...path) =>
    context.addIssue({
      ...refusal('a form of a table that contradicts itself', found, expected, mend),
      path: [...path],
    });
  ofTime(form, complain);
  ofColumns(form, complain);
  ofLayout(form, complain);
  ofChannels(form, complain);
}

function ofTime({ day, time }: TableForm, complain: Complain): void {
  if (typeof time.written !== 'string' && !time.written.hasTime) {
    complain(
      time.written.pattern,
      'a form that holds hour and minute',
      'Add HH:mm, or name the day under "day".',
      'time',
      'written',
    );
  }
  if (day && (typeof day.written === 'string' || !day.written.hasDay || day.written.hasTime)) {
    complain(
      typeof day.written === 'string' ? day.written : day.written.pattern,
      'a form that holds year, month and day alone',
      'Write it like "yyyy-MM-dd".',
      'day',
      'written',
    );
  }
}

/** How lines are cut into columns, and columns found. */
function ofColumns(form: TableForm, complain: Complain): void {
  const { day, time, columns, 'column widths': widths } = form;
  if (widths && form['between columns'] !== undefined) {
    complain(
      'both "between columns" and "column widths"',
      'one of the two',
      'Take "column widths" out where a sign stands between columns, else "between columns".',
      'between columns',
    );
  }
  if (!widths && form['columns touch'] === 'yes') {
    complain(
      '"columns touch" without "column widths"',
      'columns of fixed width',
      'Add "column widths", or take the line out.',
      'columns touch',
    );
  }
  const {
    'names in': names,
    'values in': values,
    'units in': units,
  } = form['one reading a line'] ?? {};
  const named = [
    day?.column,
    time.column,
    names,
    values,
    units,
    ...columns.map(({ column }) => column),
  ];
  const numbered = named.find((one) => typeof one === 'number');
  // Widths tell how many columns there are.
  if (numbered !== undefined && form['columns in all'] === undefined && !widths) {
    complain(
      `a column by its number, ${numbered}`,
      'also the number of all columns',
      'Add "columns in all" with how many there are, so that a table with more or fewer is refused.',
      columns.length > 0 ? 'columns' : 'one reading a line',
    );
  }
}

/** Whether a table has a column for each channel or a line for each reading. */
function ofLayout(form: TableForm, complain: Complain): void {
  const { columns, readings, 'one reading a line': line, 'not taken': notTaken } = form;
  if (!line && columns.length === 0) {
    complain(
      'no column of readings',
      'at least one column of readings',
      'Add it under "columns"; where each line tells one reading with its name, write "one reading a line" and "readings".',
      'columns',
    );
  }
  if (line && columns.length > 0) {
    complain(
      'both "columns" and "one reading a line"',
      'one of the two',
      'Write "readings" with the names of what is taken in place of "columns".',
      'columns',
    );
  }
  if (line && readings.length === 0) {
    complain(
      '"one reading a line" without "readings"',
      'at least one name of a reading',
      'Add what is taken, such as: { channel: heart rate, called: HR }.',
      'readings',
    );
  }
  if (!line && (readings.length > 0 || notTaken.length > 0)) {
    complain(
      'names of readings without "one reading a line"',
      'the columns of names and values',
      'Add it, such as: one reading a line: { names in: Name, values in: Value }.',
      readings.length > 0 ? 'readings' : 'not taken',
    );
  }
  for (const [index, { called, unit }] of readings.entries()) {
    if (unit === undefined && line && line['units in'] === undefined) {
      complain(
        `no unit of "${called}"`,
        'the unit of each reading, here or in a column of the table',
        'Add "unit", or name the column under "units in".',
        'readings',
        index,
      );
    }
    const again = readings.findIndex((other) => other.called === called) < index;
    if (again || notTaken.includes(called)) {
      complain(
        called,
        again ? 'each name once' : 'a name either taken or not',
        'Take one of the two out.',
        'readings',
        index,
        'called',
      );
    }
  }
}

/** What each column or name tells, once and in a unit of its own. */
function ofChannels(form: TableForm, complain: Complain): void {
  const [part, all] =
    form.columns.length > 0
      ? (['columns', form.columns] as const)
      : (['readings', form.readings] as const);
  for (const [index, one] of all.entries()) {
    if ((one.channel === undefined) === (one.written === undefined)) {
      complain(
        one.channel === undefined
          ? 'neither "channel" nor "written"'
          : 'both "channel" and "written"',
        'the channel that is told, or how its cells are written',
        'Write "channel" where a cell is one number, and "written" where it holds more.',
        part,
        index,
      );
    }
    for (const channel of channelsOf(one)) {
      const units = TABLE_UNITS[channel];
      const unit = one.unit === undefined ? units[0] : unitOf(one.unit, units);
      if (unit === undefined) {
        complain(
          one.unit as string,
          `${channel} in ${units.join(' or ')}`,
          `Write ${units[0]} if that is what the monitor shows.`,
          part,
          index,
          'unit',
        );
      }
      if (channel === 'EtCO2' && unit === '%' && !form['EtCO2 in percent']) {
        complain(
          'EtCO2 in %',
          'also the pressure of the air, and whether the percent are of dry or of moist gas',
          "Add a line such as: EtCO2 in percent: { of: dry gas, barometric pressure: 745 mmHg }. The monitor's manual says which gas; the pressure is that at the clinic itself, not the one of weather reports, which is told for sea level.",
          part,
          index,
          'unit',
        );
      }
      if (all.findIndex((other) => channelsOf(other).includes(channel)) < index) {
        complain(
          channel,
          'each channel once',
          'Take one of the two out.',
          part,
          index,
          one.channel === undefined ? 'written' : 'channel',
        );
      }
    }
  }
}
