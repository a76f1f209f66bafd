import { z } from 'zod';
import {
  handedOut,
  heedForm,
  lastGiven,
  MOST_DOSES,
  meal,
  whatIsGiven,
} from './medicine-schema.js';
import { date, moment } from './moments.js';
import { positive } from './quantity.js';
import { refusal } from './refusal.js';
import { text } from './words.js';

const doses = (meaning: string) =>
  z
    .int({ error: `${meaning}, a whole number` })
    .min(1, { error: 'at least one dose' })
    .max(MOST_DOSES, { error: `at most ${MOST_DOSES} doses` })
    .optional()
    .meta({ description: meaning });

/**
 * One medicine that is given at home only as needed. It has no hours, so what keeps it safe is asked for without a way
 * around: the sign that calls for it, the least time between two doses, a most, and a last day.
 */
export const asNeededSchema = (purposes: readonly string[]) =>
  z
    .strictObject({
      ...whatIsGiven(purposes),
      if: text(
        'what the owner sees before giving it, in plain words after "only if": "she cries or will not settle"',
      ),
      food: meal,
      'at least apart': positive(['h'], 'the shortest time from one dose to the next'),
      'up to': z.strictObject({
        'a day': doses('the most doses within 24 hours'),
        'in all': doses('the most doses in all'),
      }),
      until: date('the last day on which it may be given'),
      'last given': lastGiven,
      first: moment('the earliest time of a first dose at home, where it has to wait').optional(),
      ...handedOut,
    })
    .superRefine((medicine, context) => {
      const { 'a day': inDay, 'in all': inAll } = medicine['up to'];
      if (inDay === undefined && inAll === undefined) {
        context.addIssue({
          ...refusal(
            'a medicine as needed without a most',
            undefined,
            'the most doses within 24 hours, or in all',
            'Write "up to: { a day: 2 }", "up to: { in all: 6 }", or both.',
          ),
          path: ['up to'],
        });
      }
      heedForm(medicine, context);
    });

export type AsNeededText = z.output<ReturnType<typeof asNeededSchema>>;
