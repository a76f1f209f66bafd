import { z } from 'zod';
import { nearest } from '../nearest.js';
import { unitOf } from '../quantity.js';
import { refusal } from '../refusal.js';
import { ACCEPTED_UNITS } from '../vitals-rows.js';
import { CHANNELS, type ChannelName } from '../vocabulary.js';
import { oneOf, text, yesNo } from '../words.js';
import { type CellForm, cellForm } from './cell-form.js';
import { type ClockForm, clockForm } from './clock-form.js';
import { COUNTED_NAMES, type CountedName } from './counted-time.js';

/** What stands between two columns, by its name. */
export const SEPARATORS = { comma: ',', semicolon: ';', tab: '\t', bar: '|' } as const;

/** Encodings by their labels in the WHATWG Encoding Standard. */
export const ENCODINGS = [
  'utf-8',
  'utf-16le',
  'utf-16be',
  'windows-1250',
  'windows-1251',
  'windows-1252',
  'iso-8859-15',
  'macintosh',
  'shift_jis',
  'gb18030',
] as const;

const CLOCK =
  'how the time is written, such as "dd.MM.yyyy HH:mm:ss" or "h:mm a"; or what is counted: "minutes", "seconds" or "hours:minutes:seconds" from the start of anesthesia, "Unix seconds" or "Unix milliseconds"';

const written = z
  .string({ error: CLOCK })
  .meta({ description: CLOCK })
  .transform((pattern, context): ClockForm | CountedName => {
    const counted = COUNTED_NAMES.find((name) => name === pattern);
    if (counted) return counted;
    const form = clockForm(pattern);
    if (typeof form !== 'string') return form;
    const close = nearest(pattern, COUNTED_NAMES);
    context.addIssue(
      refusal(
        'a form of clock that is not understood',
        pattern,
        CLOCK,
        close ? `Did you mean "${close}"?` : `Mend the letters: ${form}.`,
      ),
    );
    return z.NEVER;
  });

const CELL =
  'how a cell with more than a number is written, such as "systolic/diastolic (mean)" or "heart rate bpm"';

const writtenCell = z
  .string({ error: CELL })
  .meta({ description: CELL })
  .transform((pattern, context): CellForm => {
    const form = cellForm(pattern);
    if (typeof form !== 'string') return form;
    context.addIssue(
      refusal('a form of cells that is not understood', pattern, CELL, `Mend it: ${form}.`),
    );
    return z.NEVER;
  });

const COLUMN = 'its title as the table writes it, or its number, 1 for the first';

const COLUMNS =
  'how many columns the table has, where one is named by its number, as the number means another in a wider table';

/** A column by its title, or by its number where its title is empty or stands twice. */
function column(meaning: string) {
  const error = `${meaning}, ${COLUMN}`;
  return z
    .union([text(error), z.int({ error }).min(1, { error })], { error })
    .meta({ description: error });
}

const missing = z.array(z.string({ error: 'a mark for a missing reading, as text in quotes' }));

/** How one monitor writes its tables: `monitor tables` of `clinic.yaml`. */
export const tableForm = z
  .strictObject({
    name: text('a name by which records call this form'),
    encoding: oneOf('the encoding', ENCODINGS).default('utf-8'),
    'between columns': oneOf('what stands between columns', [
      'comma',
      'semicolon',
      'tab',
      'bar',
    ]).default('comma'),
    decimal: oneOf('what stands before the decimals', ['point', 'comma']).default('point'),
    'titles on line': z
      .int({ error: 'the line that holds the titles, 1 for the first' })
      .min(1, { error: 'the line that holds the titles, 1 for the first' })
      .default(1)
      .meta({ description: 'the line that holds the titles, 1 for the first' }),
    'readings from line': z
      .int({ error: 'the first line of readings, where others stand below the titles' })
      .min(2, { error: 'the first line of readings, where others stand below the titles' })
      .optional()
      .meta({
        description:
          'the first line of readings, where others, such as units, stand below the titles',
      }),
    'columns in all': z
      .int({ error: COLUMNS })
      .min(2, { error: COLUMNS })
      .optional()
      .meta({ description: COLUMNS }),
    'newest first': yesNo('whether the table begins with its latest line').default('no'),
    day: z.strictObject({ column: column('the column of the day'), written }).optional(),
    time: z.strictObject({ column: column('the column of the time'), written }),
    missing: missing
      .default([])
      .meta({ description: 'marks for a missing reading, in any column' }),
    columns: z
      .array(
        z.strictObject({
          channel: oneOf('what the column shows', CHANNELS).optional(),
          written: writtenCell.optional(),
          column: column('the column'),
          unit: text('its unit'),
          missing: missing
            .default([])
            .meta({ description: 'marks for a missing reading in this column alone, such as "0"' }),
        }),
      )
      .min(1, { error: 'at least one column of readings' }),
  })
  .superRefine((form, context) => {
    const { day, time, columns } = form;
    const complain = (
      found: string,
      expected: string,
      mend: string,
      ...path: (string | number)[]
    ) =>
      context.addIssue({
        ...refusal('a form of a table that contradicts itself', found, expected, mend),
        path,
      });
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
    const numbered = [day, time, ...columns].find((one) => typeof one?.column === 'number');
    if (numbered && form['columns in all'] === undefined) {
      complain(
        `a column by its number, ${numbered.column}`,
        'also the number of all columns',
        'Add "columns in all" with how many there are, so that a table with more or fewer is refused.',
        'columns',
      );
    }
    for (const [index, one] of columns.entries()) {
      if ((one.channel === undefined) === (one.written === undefined)) {
        complain(
          one.channel === undefined
            ? 'neither "channel" nor "written"'
            : 'both "channel" and "written"',
          'the channel that the column shows, or how its cells are written',
          'Write "channel" where a cell is one number, and "written" where it holds more.',
          'columns',
          index,
        );
      }
      for (const channel of channelsOf(one)) {
        const units = ACCEPTED_UNITS[channel];
        if (unitOf(one.unit, units) === undefined) {
          complain(
            one.unit,
            `${channel} in ${units.join(' or ')}`,
            `Write ${units[0]} if that is what the monitor shows.`,
            'columns',
            index,
            'unit',
          );
        }
        if (columns.findIndex((other) => channelsOf(other).includes(channel)) < index) {
          complain(
            channel,
            'each channel once',
            'Take one of the two out.',
            'columns',
            index,
            one.channel === undefined ? 'written' : 'channel',
          );
        }
      }
    }
  });

/** What a column shows. */
export const channelsOf = ({ channel, written }: TableColumn): readonly ChannelName[] =>
  channel === undefined ? (written?.channels ?? []) : [channel];

interface TableColumn {
  readonly channel?: ChannelName | undefined;
  readonly written?: CellForm | undefined;
}

export type TableForm = z.output<typeof tableForm>;

/** A form as the clinic's file writes it. */
export type WrittenForm = z.input<typeof tableForm>;
