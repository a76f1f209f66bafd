import { z } from 'zod';
import { refusal } from './refusal.js';

const SKEW =
  'how far the clock of the vitals file is from the clock of the record, such as "90 s ahead" or "2 min behind"';

/** `90 s ahead` to minutes that the vitals' clock is ahead; negative where it is behind. */
export const clockSkew = z
  .string({ error: SKEW })
  .meta({ description: SKEW })
  .transform((written, context) => {
    const [, number, unit, side] = /^(\d+(?:\.\d+)?) ?(s|min) (ahead|behind)$/.exec(written) ?? [];
    if (number === undefined) {
      context.addIssue(
        refusal(
          'a difference of clocks that is not understood',
          written,
          SKEW,
          'Write a number, s or min, and ahead or behind.',
        ),
      );
      return z.NEVER;
    }
    const minutes = unit === 's' ? Number(number) / 60 : Number(number);
    return side === 'ahead' ? minutes : -minutes;
  });
