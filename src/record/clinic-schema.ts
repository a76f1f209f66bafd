import { z } from 'zod';
import { clock, date } from './moments.js';
import { refusal } from './refusal.js';
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
const HOURS = 'opening hours such as "08:00-18:00", or "closed"';

/** `08:00-18:00` to its two times; null on a closed day. */
const hours = z
  .string({ error: HOURS })
  .meta({ description: HOURS })
  .transform((written, context) => {
    if (written === CLOSED) return null;
    const parts = /^(\d{2}:\d{2})-(\d{2}:\d{2})$/.exec(written);
    const times = parts && clock(HOURS).array().safeParse([parts[1], parts[2]]);
    if (times?.success && (times.data[0] as string) < (times.data[1] as string)) {
      return { from: times.data[0] as string, to: times.data[1] as string };
    }
    context.addIssue(
      refusal(written, HOURS, 'Write opening and closing time, earlier one first, as HH:MM-HH:MM.'),
    );
    return z.NEVER;
  });

/** `clinic.yaml`: what all cases of a clinic share. */
export const clinicSchema = (tags: readonly string[]) =>
  z.strictObject({
    name: text('the name of the clinic'),
    address: z.array(text('one line of the address')).default([]),
    phone: text('the telephone number for the day'),
    emergency: z
      .strictObject({
        name: text('who answers at night'),
        phone: text('the telephone number for the night'),
      })
      .meta({ description: 'whom to call when the clinic is closed' }),
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
    'large type': yesNo('whether sheets are printed in large type').default('no'),
  });

export type Clinic = z.output<ReturnType<typeof clinicSchema>>;
export type Weekday = (typeof DAYS)[number];
