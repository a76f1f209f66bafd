import { unitOf } from '../quantity.js';
import { toChannelUnit } from '../read-cells.js';
import type { ColumnPlan } from '../vitals-rows.js';
import type { ChannelName } from '../vocabulary.js';
import { pressureOf, TABLE_UNITS } from './carbon-dioxide.js';
import { type CellForm, channelsOf, partsOf } from './cell-form.js';
import type { TableForm } from './table-form.js';

/** A column or a name of a form. */
interface Told {
  readonly channel?: ChannelName | undefined;
  readonly written?: CellForm | undefined;
  readonly missing: readonly string[];
}

/** How the cells of a column, or of the lines of a name, are read: a plan for each channel in them. */
export function columnPlans(
  told: Told,
  index: number,
  spelled: string,
  form: TableForm,
): ColumnPlan[] {
  const marks = new Set(['', '-', ...form.missing, ...told.missing]);
  const isMissing = (cell: string) => marks.has(cell);
  const { written } = told;
  return channelsOf(told).flatMap((channel) => {
    // The form was checked against the units when the clinic's file was read.
    const unit = unitOf(spelled, TABLE_UNITS[channel]);
    if (unit === undefined) return [];
    const within = written && {
      pattern: written.pattern,
      part: (cell: string) => partsOf(cell, written)?.get(channel) ?? null,
    };
    const ofAir = channel === 'EtCO2' && unit === '%' ? form['EtCO2 in percent'] : undefined;
    const toOwn = (shown: number) =>
      ofAir ? pressureOf(shown, ofAir) : toChannelUnit(shown, unit);
    return [{ channel, index, unit, toOwn, isMissing, ...(within && { within }) }];
  });
}
