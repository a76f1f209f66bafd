import { z } from 'zod';
import { clock, date } from './moments.js';
import { tableForm } from './monitor-table/table-form.js';
import { positive, quantity } from './quantity.js';
import { refusal, refused } from './refusal.js';
import { timeZone } from './time-zone.js';
import { oneOf, text, yesNo } from './words.js';

/** From Monday on, as dates count them. */
export const DAYS = [
  'monday',
  'tuesday',
  'wednesday',
  'thursday',
  'friday',
  'saturday',
  'sunday',
] as const;

const CLOSED = 'closed';
const ALL_DAY = '24 h';
const HOURS =
  'opening hours such as "08:00-18:00" or "08:00-12:00, 14:00-18:00", "24 h", or "closed"';

/** When the clinic is open on a day: first opens and last closes, and all its hours, from and to; `24:00` is the end of the day. */
export interface OpenHours {
  readonly from: string;
  readonly to: string;
  readonly spans: readonly (readonly [from: string, to: string])[];
}

/** `08:00-18:00`, also with a break at noon; null on a closed day. */
const hours = z
  .string({ error: HOURS })
  .meta({ description: HOURS })
  .transform((written, context): OpenHours | null => {
    if (written === CLOSED) return null;
    if (written === ALL_DAY) return { from: '00:00', to: '24:00', spans: [['00:00', '24:00']] };
    const spans = written.split(',').map((span) => span.trim().split(/\s*[-–]\s*/));
    const times = clock(HOURS).array().safeParse(spans.flat());
    const rises = times.data?.every((time, i, all) => i === 0 || (all[i - 1] as string) < time);
    if (times.success && rises && spans.every((span) => span.length === 2)) {
      return {
        from: times.data[0] as string,
        to: times.data.at(-1) as string,
        spans: spans as [string, string][],
      };
    }
    context.addIssue(
      refusal(
        'opening hours that are not understood',
        written,
        HOURS,
        'Write opening and closing time, earlier one first, as HH:MM-HH:MM; a comma before the hours after a break.',
      ),
    );
    return z.NEVER;
  });

/** A web address without anything after its path, its last slash taken off. */
const place = (expected: string) =>
  z
    .string({ error: expected })
    .meta({ description: expected })
    .transform((written, context) => {
      const address = URL.canParse(written) ? new URL(written) : null;
      const plain = address && [address.search, address.hash, address.username].join('') === '';
      if (plain && address.protocol === 'https:' && address.href.length <= LONGEST_PLACE) {
        return address.href.replace(/\/+$/, '');
      }
      context.addIssue(
        refusal(
          'a web address that is not understood',
          written,
          expected,
          `Write the https address of the folder alone, at most ${LONGEST_PLACE} characters.`,
        ),
      );
      return z.NEVER;
    });

/** A longer one makes a code that is hard to read from paper. Not a clinical number. */
const LONGEST_PLACE = 80;

/** The smallest group where a clinic states none. Common practice for tables of patients; our own choice. */
const SMALLEST_GROUP = 5;
const GROUP = 'how many published cases must tell the same of their patients, such as 5';

const SECRET = 'a secret of the clinic, at least 16 characters';
const secret = z
  .string({ error: SECRET })
  .meta({ description: SECRET })
  .superRefine((written, context) => {
    if (written.trim().length >= 16) return;
    const mend =
      'Write a few words in a row that nobody else would think of, and keep them to the clinic.';
    context.addIssue(
      refused({
        kind: 'a secret that is too short',
        found: 'a shorter text',
        expected: SECRET,
        mend,
      }),
    );
  });

const LOW = 'the mean arterial pressure below which the clinic speaks of low pressure';

/** What a guideline or a study could mean by a low mean pressure, mmHg. Beyond lies a slip of the pen: from memory, unverified. */
const LOW_RANGE = { from: 50, to: 80 } as const;

const lowMeanPressure = quantity(['mmHg'], LOW).superRefine(({ value, written }, context) => {
  if (value >= LOW_RANGE.from && value <= LOW_RANGE.to) return;
  context.addIssue(
    refusal(
      'a limit that no guideline has',
      written,
      `${LOW}, ${LOW_RANGE.from} to ${LOW_RANGE.to} mmHg`,
      'Write the limit of mean pressure, such as "65 mmHg", or leave the line out.',
    ),
  );
});

/** Steps of the clock to which a first home dose may be rounded up, in minutes: whole parts of an hour. Not a clinical number. */
export const DOSE_STEPS = {
  '5 min': 5,
  '10 min': 10,
  '15 min': 15,
  '20 min': 20,
  '30 min': 30,
  '1 h': 60,
} as const;

/** `clinic.yaml`: what all cases of a clinic share. */
export const clinicSchema = (tags: readonly string[]) =>
  z
    .strictObject({
      name: text('the name of the clinic'),
      address: z.array(text('one line of the address')).default([]),
      phone: text('the telephone number for the day'),
      emergency: z
        .strictObject({
          name: text('who answers at night'),
          phone: text('the telephone number for the night'),
        })
        .optional()
        .meta({
          description:
            'whom to call when the clinic is closed; may be left out where it is open 24 h on each day',
        }),
      hours: z.strictObject(
        Object.fromEntries(DAYS.map((day) => [day, hours])) as Record<
          (typeof DAYS)[number],
          typeof hours
        >,
        { error: 'opening hours for each day of the week' },
      ),
      'closed on': z
        .array(
          z.strictObject({
            date: date('a day on which the clinic is closed'),
            why: text('the reason'),
          }),
        )
        .default([]),
      'time zone': timeZone,
      paper: z.enum(['A4', 'Letter'], { error: 'the paper size, A4 or Letter' }),
      languages: z
        .array(oneOf('a language', tags as [string, ...string[]]))
        .min(1, { error: `at least one language of ${tags.join(', ')}` }),
      'calendars online': z
        .strictObject({
          at: place('an address such as https://calendars.larkspur.example'),
          secret,
        })
        .optional()
        .meta({ description: 'where the clinic puts the calendar files for owners to open' }),
      site: z
        .strictObject({
          at: place('an address such as https://cases.larkspur.example'),
          issued: date(
            'the day on which the pages are put online, which the feed tells',
          ).optional(),
        })
        .optional()
        .meta({ description: 'where the clinic puts the public pages' }),
      pseudonyms: z
        .strictObject({
          'key file': text('the file that holds the secret key, outside the cases and the output'),
          'demonstration key': text('the key of the demonstration, for everyone to read'),
        })
        .partial()
        .optional()
        .meta({ description: 'where the key is that gives published cases their pseudonyms' }),
      'small groups': z
        .strictObject({
          'at least': z.int({ error: GROUP }).min(1, { error: GROUP }).meta({ description: GROUP }),
          because: text('why fewer than five are enough here').optional(),
        })
        .superRefine((groups, context) => {
          if (groups['at least'] >= SMALLEST_GROUP || groups.because !== undefined) return;
          const mend = 'Add "because:", which the public pages say, or ask for five at least.';
          context.addIssue({
            ...refusal(
              'a small group without a reason',
              groups['at least'],
              `${GROUP}; fewer only with a reason`,
              mend,
            ),
            path: ['at least'],
          });
        })
        .default({ 'at least': SMALLEST_GROUP })
        .meta({ description: 'how many published cases must tell the same of their patients' }),
      'monitor tables': z
        .array(tableForm)
        .default([])
        .meta({ description: 'how the monitors of the clinic write their tables' }),
      'low mean pressure': lowMeanPressure.optional(),
      'home doses': z
        .strictObject({
          'rounded up to': oneOf(
            'the step of the clock to which a first home dose that is computed is rounded up',
            Object.keys(DOSE_STEPS) as [keyof typeof DOSE_STEPS],
          ).optional(),
          'late by more than': positive(
            ['h', 'min'],
            'how late a dose may be before the owner has to call',
          ).optional(),
        })
        .default({})
        .meta({ description: "the clinic's own rules for the hours of doses at home" }),
      clock: oneOf("how owners' sheets tell the hours: 8:00 pm or 20:00", CLOCKS).default('12 h'),
      region: text('the region told in public, no smaller than a state or a province').optional(),
      'large type': yesNo(
        "whether owners' sheets are printed in large type, where the case does not say",
      ).default('no'),
    })
    .superRefine((clinic, context) => {
      if (clinic.emergency || !(everCloses(clinic.hours) || clinic['closed on'].length > 0)) return;
      context.addIssue({
        ...refusal(
          'a missing key',
          undefined,
          'whom to call when the clinic is closed, with name and phone',
          'Add "emergency:", or write "24 h" for each day on which somebody is always there, and no closed days.',
        ),
        path: ['emergency'],
      });
    });

/** How owners' sheets tell the hours. */
const CLOCKS = ['12 h', '24 h'] as const;
export type Hours = (typeof CLOCKS)[number];

/** Whether there is an hour of the week at which nobody is there. */
const everCloses = (week: Readonly<Record<string, { from: string; to: string } | null>>) =>
  Object.values(week).some((day) => day?.from !== '00:00' || day.to !== '24:00');

export type Clinic = z.output<ReturnType<typeof clinicSchema>>;
export type Weekday = (typeof DAYS)[number];
