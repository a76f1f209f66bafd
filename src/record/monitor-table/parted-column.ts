import type { ChannelName } from '../vocabulary.js';
import { type CellForm, cellForm, partsOf } from './cell-form.js';
import { type NamedChannel, namesPressure } from './named-channel.js';
import type { SampleColumn } from './sample-columns.js';

/** How monitors write the pressures of one measurement into a cell. Common practice. */
const PRESSURE_CELLS = [
  'systolic/diastolic (mean)',
  'systolic/diastolic [mean]',
  'systolic/diastolic/mean',
  'systolic/mean/diastolic',
  'mean (systolic/diastolic)',
  'systolic/diastolic',
].map((pattern) => cellForm(pattern) as CellForm);

/**
 * A column whose cells hold more than a number, as a column for each reading in them: `120/60 (80)`, `104 bpm`. Any
 * other column stays as it is.
 */
export function partedColumn(column: SampleColumn): SampleColumn[] {
  const told = column.cells.filter((cell) => /\d/.test(cell));
  const form = told.every(isNumber) ? null : (pressures(column, told) ?? withSuffix(column, told));
  if (!form) return [column];
  return form.channels.map((channel) => ({
    ...column,
    written: form.pattern,
    channel: { channel, rank: 0, beside: `in the cells of ${column.index}` } satisfies NamedChannel,
    // A cell that is not written so is a mark for a missing reading.
    cells: column.cells.map((cell) => partsOf(cell, form)?.get(channel) ?? cell),
  }));
}

const isNumber = (cell: string): boolean => /^-?\d+([.,]\d+)?$/.test(cell);

function pressures({ title }: SampleColumn, told: readonly string[]): CellForm | null {
  if (!namesPressure(title)) return null;
  return (
    PRESSURE_CELLS.find((form) => told.every((cell) => isInOrder(partsOf(cell, form)))) ?? null
  );
}

/** Whether diastole, mean and systole ascend, as far as they are told. */
function isInOrder(parts: ReadonlyMap<ChannelName, string> | null): boolean {
  if (!parts) return false;
  const pressures = (['diastolic', 'mean', 'systolic'] as const)
    .map((channel) => parts.get(channel) ?? '')
    .filter((part) => /\d/.test(part))
    .map((part) => Number(part.replace(',', '.')));
  return pressures.every((pressure, at) => at === 0 || pressure >= (pressures[at - 1] as number));
}

/** A number and a unit behind it, the same in all cells. */
function withSuffix({ channel }: SampleColumn, told: readonly string[]): CellForm | null {
  const suffixes = new Set(
    told.map((cell) => /^-?\d+(?:[.,]\d+)?\s*([^\d\s]\D*)$/.exec(cell)?.[1]),
  );
  const [suffix] = suffixes;
  if (!channel || suffixes.size !== 1 || suffix === undefined) return null;
  const form = cellForm(`${channel.channel} ${suffix}`);
  return typeof form === 'string' ? null : form;
}
