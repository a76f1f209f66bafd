import { TABLE_UNITS } from './carbon-dioxide.js';
import { namesPressure } from './named-channel.js';
import { partedColumn } from './parted-column.js';
import {
  hasDecimalComma,
  type SampleColumn,
  type TakenColumn,
  takenColumns,
} from './sample-columns.js';
import { sampleMarks } from './sample-marks.js';
import { type SampleReading, sampleReadings } from './sample-readings.js';
import { spelledUnit } from './spelled-unit.js';
import type { WrittenForm } from './table-form.js';

/** What a table tells beside its time, as a form says it. */
export interface ToldForm {
  readonly form: Pick<
    WrittenForm,
    'missing' | 'columns' | 'one reading a line' | 'readings' | 'not taken'
  >;
  readonly comma: boolean;
  /** By what its columns are named. */
  readonly named: readonly (string | number)[];
  readonly leftOver: readonly string[];
}

const titlesOf = (columns: readonly SampleColumn[]): string[] =>
  columns.flatMap(({ title }) => (title === '' ? [] : [title]));

/** A table with a column for each channel; null where no title names one. */
export function columnsOf(others: readonly SampleColumn[], doubts: string[]): ToldForm | null {
  const guesses: string[] = [];
  const taken = takenColumns(others.flatMap(partedColumn), guesses);
  if (taken.length === 0) {
    // Names below each other are more than what was guessed of columns that are none.
    if (!sampleReadings(others)) doubts.push(...guesses);
    return null;
  }
  doubts.push(...guesses);
  const told = toldBy(taken, doubts);
  return {
    ...told,
    form: {
      ...(told.missing.length > 0 && { missing: told.missing }),
      columns: told.each.map(({ one, ...rest }) => ({
        ...rest,
        column: one.named,
        unit: one.readIn,
        ...ownMarks(told, one),
      })),
    },
    named: told.each.map(({ one }) => one.named),
    leftOver: titlesOf(others.filter(({ index }) => !taken.some((one) => one.index === index))),
  };
}

/** A table with one reading a line; null where no column names measurements. */
export function readingsOf(others: readonly SampleColumn[], doubts: string[]): ToldForm | null {
  const sample = sampleReadings(others);
  if (!sample) return null;
  const { names, values, named } = sample;
  doubts.push(...sample.doubts);
  const wanted = takenColumns(named.flatMap(partedColumn), []);
  const isWanted = ({ index }: SampleReading) => wanted.some((one) => one.index === index);
  const units = readableUnits(sample.units, named.filter(isWanted), doubts);
  const single = named.filter((one) => units !== null || hasOneUnit(one, doubts));
  const taken = takenColumns(single.flatMap(partedColumn), doubts);
  if (taken.length === 0) return null;
  const told = toldBy(taken, doubts);
  const notTaken = named.filter(({ index }) => !taken.some((one) => one.index === index));
  const isToldOnEach = ({ index }: TakenColumn) =>
    units !== null && !(named[index] as SampleReading).units.includes('');
  return {
    ...told,
    form: {
      ...(told.missing.length > 0 && { missing: told.missing }),
      'one reading a line': {
        'names in': names.named,
        'values in': values.named,
        ...(units && { 'units in': units.named }),
      },
      readings: told.each.map(({ one, ...rest }) => ({
        ...rest,
        called: String(one.named),
        ...(!isToldOnEach(one) && { unit: one.readIn }),
        ...ownMarks(told, one),
      })),
      ...(notTaken.length > 0 && { 'not taken': notTaken.map((one) => one.named) }),
    },
    named: [names.named, values.named, ...(units ? [units.named] : [])],
    leftOver: titlesOf(others.filter((one) => ![names, values, sample.units].includes(one))),
  };
}

/** The column of units where a form reads every unit of the names that are taken; otherwise null. */
function readableUnits(
  units: SampleColumn | null,
  named: readonly SampleReading[],
  doubts: string[],
): SampleColumn | null {
  const unread = named.flatMap(({ channel, title, units: told }) => {
    const channels = channel ? [channel.channel] : namesPressure(title) ? (['mean'] as const) : [];
    const isRead = (unit: string) =>
      unit === '' || channels.every((one) => spelledUnit(unit, TABLE_UNITS[one]) !== undefined);
    return told.filter((unit) => !isRead(unit));
  });
  if (!units || unread.length === 0) return units;
  doubts.push(
    `"${units.title}" tells units that are not understood (${[...new Set(unread)].join(', ')}): each reading has the unit that is written here, whatever its line tells`,
  );
  return null;
}

/** Whether all lines of a name tell the same unit. */
function hasOneUnit({ title, units }: SampleReading, doubts: string[]): boolean {
  const told = units.filter((unit) => unit !== '');
  if (told.length < 2) return true;
  doubts.push(`"${title}" is told in ${told.join(' and ')}, of which no form reads both`);
  return false;
}

/** What taken columns tell, a cell of several readings once, and their marks for missing readings. */
function toldBy(taken: readonly TakenColumn[], doubts: string[]) {
  const marks = sampleMarks(taken, doubts);
  const each = taken
    .filter(({ index }, place) => place === taken.findIndex((one) => one.index === index))
    .map((one) => ({
      ...(one.written === undefined ? { channel: one.channel.channel } : { written: one.written }),
      one,
    }));
  return {
    each,
    missing: [...marks.everywhere],
    within: marks.within,
    comma: hasDecimalComma(taken),
  };
}

function ownMarks({ within }: ReturnType<typeof toldBy>, { index }: TakenColumn) {
  const missing = within.get(index);
  return missing ? { missing: [...missing] } : {};
}
