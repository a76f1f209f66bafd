import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { refusal } from './refusal.js';

/** A calendar date `YYYY-MM-DD`, checked to exist. */
export const date = (meaning: string) =>
  z
    .string({ error: `${meaning}, a date such as 2026-03-09` })
    .meta({
      description: `${meaning}, a date such as 2026-03-09`,
      pattern: '^\\d{4}-\\d{2}-\\d{2}$',
    })
    .transform((written, context): string => {
      const wellFormed = /^\d{4}-\d{2}-\d{2}$/.test(written);
      if (wellFormed && exists(() => Temporal.PlainDate.from(written))) return written;
      context.addIssue(
        refusal(
          'a date or time that is not understood',
          written,
          `${meaning}, a date such as 2026-03-09`,
          wellFormed
            ? 'That day is not in the calendar; write one that is.'
            : 'Write year, month and day with dashes: YYYY-MM-DD.',
        ),
      );
      return z.NEVER;
    });

/** A time of day `HH:MM`, with seconds where they matter. */
export const clock = (meaning: string) =>
  z
    .string({ error: `${meaning}, a time such as 09:40` })
    .meta({ description: `${meaning}, a time such as 09:40`, pattern: '^\\d{2}:\\d{2}(:\\d{2})?$' })
    .transform((written, context): string => {
      if (isClock(written)) return written;
      context.addIssue(
        refusal(
          'a date or time that is not understood',
          written,
          `${meaning}, a time such as 09:40`,
          mendClock(written) ?? 'Write hours and minutes on the 24-hour clock: HH:MM.',
        ),
      );
      return z.NEVER;
    });

/** A time of day on the day of surgery, or a full `YYYY-MM-DD HH:MM` for another day. */
export const moment = (meaning: string) =>
  z
    .string({ error: `${meaning}, a time such as 09:40 or 2026-03-09 09:40` })
    .meta({ description: `${meaning}: HH:MM on the day of surgery, or YYYY-MM-DD HH:MM` })
    .transform((written, context): string => {
      const [, day, time = ''] = /^(?:(\d{4}-\d{2}-\d{2}) )?(\S+)$/.exec(written) ?? [];
      const dayExists = day === undefined || exists(() => Temporal.PlainDate.from(day));
      if (dayExists && isClock(time)) return written;
      context.addIssue(
        refusal(
          'a date or time that is not understood',
          written,
          `${meaning}, a time such as 09:40 or 2026-03-09 09:40`,
          dayExists
            ? (mendClock(written) ??
                'Write HH:MM for the day of surgery, or YYYY-MM-DD HH:MM for another day.')
            : 'That day is not in the calendar; write one that is.',
        ),
      );
      return z.NEVER;
    });

/** Local date and time of a `moment`, given the day that a bare time belongs to. */
export function localTime(written: string, day: string): Temporal.PlainDateTime {
  const full = written.includes(' ') ? written.replace(' ', 'T') : `${day}T${written}`;
  return Temporal.PlainDateTime.from(full);
}

/** How a time of day is written that is told otherwise: `9:40`, `9.40`, `9h40` or `9:40 pm`; null where none is meant. */
function mendClock(written: string): string | null {
  const [, hours, minutes = '00', half] =
    /^(\d{1,2})(?:[:.h](\d{2}))? ?(?:([ap])\.?m\.?)?$/i.exec(written.trim()) ?? [];
  if (hours === undefined || !/[:.h]|m/i.test(written)) return null;
  const late = half?.toLowerCase() === 'p';
  if (half !== undefined && (Number(hours) < 1 || Number(hours) > 12)) return null;
  const hour = half === undefined ? Number(hours) : (Number(hours) % 12) + (late ? 12 : 0);
  const meant = `${String(hour).padStart(2, '0')}:${minutes}`;
  return isClock(meant) ? `Write "${meant}", on the 24-hour clock.` : null;
}

function isClock(text: string): boolean {
  return /^([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?$/.test(text);
}

function exists(read: () => unknown): boolean {
  try {
    read();
    return true;
  } catch {
    return false;
  }
}
