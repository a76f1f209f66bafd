import { z } from 'zod';
import { nearest } from '../nearest.js';
import { refusal } from '../refusal.js';
import { CHANNELS } from '../vocabulary.js';
import { oneOf, text, yesNo } from '../words.js';
import { inPercent } from './carbon-dioxide.js';
import { type CellForm, cellForm } from './cell-form.js';
import { type ClockForm, clockForm } from './clock-form.js';
import { COUNTED_NAMES, type CountedName } from './counted-time.js';
import { contradictionsOf } from './form-contradictions.js';

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
  'how the time is written, such as "dd.MM.yyyy HH:mm:ss" or "h:mm a" (without "a" where the monitor writes neither AM nor PM); or what is counted: "minutes", "seconds" or "hours:minutes:seconds" from the start of anesthesia, "Unix seconds" or "Unix milliseconds"';

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
const WIDTHS =
  'how many letters wide each column is, its spaces among them, where nothing but its place in the line parts it from the next';
const NOT_TAKEN = 'names of readings that are not taken, such as "PVC"';

/** A column by its title, or by its number where its title is empty or stands twice. */
function column(meaning: string) {
  const error = `${meaning}, ${COLUMN}`;
  return z
    .union([text(error), z.int({ error }).min(1, { error })], { error })
    .meta({ description: error });
}

const missing = z.array(z.string({ error: 'a mark for a missing reading, as text in quotes' }));

/** What a column or a name tells. */
const told = {
  channel: oneOf('what is told', CHANNELS).optional(),
  written: writtenCell.optional(),
};

const ownMissing = missing
  .default([])
  .meta({ description: 'marks for a missing reading here alone, such as "0"' });

/** How one monitor writes its tables: `monitor tables` of `clinic.yaml`. */
export const tableForm = z
  .strictObject({
    name: text('a name by which records call this form'),
    encoding: oneOf('the encoding', ENCODINGS).default('utf-8'),
    'between columns': oneOf('what stands between columns; a comma where nothing is said', [
      'comma',
      'semicolon',
      'tab',
      'bar',
    ]).optional(),
    'column widths': z
      .array(z.int({ error: WIDTHS }).min(1, { error: WIDTHS }), { error: WIDTHS })
      .min(2, { error: WIDTHS })
      .optional()
      .meta({ description: WIDTHS }),
    'columns touch': yesNo(
      'whether columns of fixed width may stand without a space between them',
    ).default('no'),
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
    'EtCO2 in percent': inPercent.optional(),
    columns: z
      .array(
        z.strictObject({
          ...told,
          column: column('the column'),
          unit: text('its unit'),
          missing: ownMissing,
        }),
      )
      .default([])
      .meta({ description: 'where each channel has a column of its own' }),
    'one reading a line': z
      .strictObject({
        'names in': column('the column that names what each line tells'),
        'values in': column('the column of the readings'),
        'units in': column('the column of their units').optional(),
      })
      .optional()
      .meta({ description: 'where each line tells one reading, with its name' }),
    readings: z
      .array(
        z.strictObject({
          ...told,
          called: text('its name in the table'),
          unit: text('its unit, where its line tells none').optional(),
          missing: ownMissing,
        }),
      )
      .default([])
      .meta({ description: 'what each name stands for, where each line tells one reading' }),
    'not taken': z.array(text(NOT_TAKEN)).default([]).meta({ description: NOT_TAKEN }),
  })
  .superRefine((form, context) => contradictionsOf(form, context));

export type TableForm = z.output<typeof tableForm>;

/** A form as the clinic's file writes it. */
export type WrittenForm = z.input<typeof tableForm>;
