import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { answers } from './answers.js';
import { clock, moment } from './moments.js';
import { positive, quantity, unitOf } from './quantity.js';
import { refusal, refused } from './refusal.js';
import { EARS, EYES, LOCAL_ROUTES, ROUTES } from './vocabulary.js';
import { name, oneOf, yesNo } from './words.js';

/**
 * What one tablet, capsule, drop, millilitre or gram holds.
 * @public as the declarations of the schemas name it
 */
export interface Strength {
  readonly value: number;
  readonly unit: 'mg' | 'mcg' | 'g';
  readonly per: (typeof HOLDERS)[number];
  readonly written: string;
}

/** What holds a medicine; a gram is one of an ointment or a cream. */
export const HOLDERS = ['tablet', 'capsule', 'mL', 'drop', 'g'] as const;

/** How much of an ointment or a cream the owner gives: the length of its strip, or what it looks like. None has a mass. */
export const SMEARED = ['cm', 'pea', 'thin layer'] as const;
export type Smeared = (typeof SMEARED)[number];

/** Whether an amount is one of an ointment or a cream. */
export const isSmeared = (unit: string): unit is Smeared => SMEARED.some((one) => one === unit);

const STRENGTH = 'the strength, such as "50 mg/tablet" or "1.5 mg/mL"';
const amount = quantity(['mg', 'mcg', 'g'], STRENGTH);

const strength = z
  .string({ error: STRENGTH })
  .meta({ description: STRENGTH })
  .transform((written, context): Strength => {
    const [mass = '', per = '', ...more] = written.split('/').map((part) => part.trim());
    const found = amount.safeParse(mass);
    const form = unitOf(per, HOLDERS);
    if (more.length === 0 && form && found.success && found.data.value > 0) {
      return { value: found.data.value, unit: found.data.unit, per: form, written };
    }
    context.addIssue(
      refusal('a strength that is not understood', written, STRENGTH, mendStrength(written)),
    );
    return z.NEVER;
  });

/** Forms that are swallowed, or melt in the mouth, and go no other way. */
const SOLID: readonly string[] = ['tablet', 'capsule'];
const SWALLOWED: readonly string[] = ['by mouth', 'on the gums', 'inside the cheek'];

/** Where a liquid is dropped onto what it treats, and nobody draws it up. */
const DROPPED: readonly string[] = [...EYES, ...EARS];

/** What tells how a medicine is put onto what it treats. */
interface Dropped {
  readonly route: string;
  readonly strength: { readonly per: string };
  readonly give: { readonly unit: string };
}

/** Drops for eye or ear come in a bottle whose label tells what a mL holds. By mouth a drop is too uncertain a measure. */
const isDropOfBottle = ({ route, strength, give }: Dropped): boolean =>
  DROPPED.includes(route) && strength.per === 'mL' && give.unit === 'drop';

/** An ointment or a cream comes in grams and is smeared onto what it treats. */
const isSmearedOn = ({ route, strength, give }: Dropped): boolean =>
  LOCAL_ROUTES.includes(route) && strength.per === 'g' && isSmeared(give.unit);

/** What a label may say instead, in the form that is asked for. */
function mendStrength(written: string): string {
  const [, percent] = /^(\d+(?:\.\d+)?) ?%$/.exec(written.trim()) ?? [];
  if (percent !== undefined) {
    // 1 % of a liquid is 1 g in 100 mL: common practice.
    const tenth = Number((Number(percent) * 10).toPrecision(12));
    return `Write what one mL holds. If the label means grams in 100 mL, that is "${tenth} mg/mL"; of an ointment, "${tenth} mg/g".`;
  }
  const [, mass, unit, count, per] =
    /^(\d+(?:\.\d+)?) ?([a-zµμ]+) ?\/ ?(\d+(?:\.\d+)?) ?([a-z]+)$/i.exec(written.trim()) ?? [];
  const form = per && unitOf(per, HOLDERS);
  if (form && Number(count) > 0) {
    const each = Number((Number(mass) / Number(count)).toPrecision(12));
    return `Write what one ${form} holds: "${each} ${unit}/${form}".`;
  }
  return 'Write the mass, a slash, and tablet, capsule, mL, drop, or g of an ointment.';
}

/** Doses of one medicine at home; more are a slip. Not a clinical number. */
export const MOST_DOSES = 1000;

/** What is told of every medicine for home before its times. */
export const whatIsGiven = (purposes: readonly string[]) => ({
  drug: name('the generic name of the medicine'),
  for: oneOf('what it is for, as named in content/', purposes as [string, ...string[]]),
  strength,
  give: positive(['tablet', 'capsule', 'mL', 'drop', ...SMEARED], 'how much at one time'),
  'do not cut': yesNo('whether a tablet must stay whole').default('no'),
  route: oneOf('how it is given', ROUTES),
});

/** Whether a meal goes with it. */
export const meal = oneOf('with or without food', ['with food', 'without food', 'either']);

/** The last dose that the clinic itself gave. */
export const lastGiven = moment('the last dose given in the clinic').optional();

/** What is told of every medicine for home at its end. */
export const handedOut = {
  dispensed: positive(HOLDERS, 'how much was handed out').optional(),
  'accepted because': answers('this medicine').optional(),
};

/** What every medicine for home says, whenever it is given. */
export type GivenText = z.output<
  z.ZodObject<
    ReturnType<typeof whatIsGiven> & {
      food: typeof meal;
      'last given': typeof lastGiven;
    } & typeof handedOut
  >
> & { readonly first?: string | undefined };

/** Refuses a route that the form does not take, and an amount in another unit than the strength. */
export function heedForm(medicine: GivenText, context: z.RefinementCtx): void {
  const { per, written } = medicine.strength;
  if (SOLID.includes(per) && !SWALLOWED.includes(medicine.route)) {
    context.addIssue({
      ...refusal(
        'a route that the form does not take',
        medicine.route,
        `a ${per} ${SWALLOWED.join(' or ')}`,
        'Mend the route or the strength.',
      ),
      path: ['route'],
    });
  }
  for (const path of ['give', 'dispensed'] as const) {
    const found = medicine[path];
    if (
      found &&
      found.unit !== per &&
      !(path === 'give' && (isDropOfBottle(medicine) || isSmearedOn(medicine)))
    ) {
      const meant =
        path === 'give' && per === 'g'
          ? 'a strip in cm, a pea or a thin layer, on the skin, in an eye or in an ear'
          : `an amount in ${per}`;
      context.addIssue({
        ...refusal(
          'an amount in another unit than the strength',
          found.written,
          `${meant}, as the strength is ${written}`,
          path === 'give' && per === 'g'
            ? 'Write it like "0.5 cm", "1 pea" or "1 thin layer", or mend route or strength.'
            : `Write it in ${per}, or mend the strength.`,
        ),
        path: [path],
      });
    }
  }
}

/** One medicine to be given at home at hours of its own. */
export const medicineSchema = (purposes: readonly string[]) =>
  z
    .strictObject({
      ...whatIsGiven(purposes),
      every: positive(['h'], 'the exact time from dose to dose').optional(),
      at: z
        .array(clock('a time of day for a dose'))
        .min(1, { error: 'at least one time of day' })
        .refine(
          (times) =>
            new Set(times.map((time) => `${Temporal.PlainTime.from(time)}`)).size === times.length,
          {
            error: 'each time of day once',
          },
        )
        .optional()
        .meta({
          description: 'the times of day, where the clock matters more than the exact interval',
        }),
      food: meal,
      'last given': lastGiven,
      first: moment('the first dose at home').optional(),
      doses: z
        .int({ error: 'the number of doses at home, a whole number' })
        .min(1, { error: 'at least one dose' })
        .max(MOST_DOSES, { error: `at most ${MOST_DOSES} doses` }),
      ...handedOut,
    })
    .superRefine((medicine, context) => {
      if (medicine.every && medicine.at) {
        context.addIssue({
          ...refused({
            kind: 'a medicine without one rhythm',
            found: 'both',
            expected: 'either "every" or "at"',
            mend: 'Keep "every" for an exact interval, or "at" for times of day.',
          }),
          path: ['at'],
        });
      }
      if (!medicine.every && !medicine.at) {
        context.addIssue({
          ...refusal(
            'a medicine without one rhythm',
            undefined,
            'either "every" or "at"',
            'Add "every: 12 h" or "at: [08:00, 20:00]".',
          ),
          path: ['every'],
        });
      }
      if (!medicine.first && !medicine['last given']) {
        context.addIssue({
          ...refusal(
            'a medicine without a dose to count from',
            undefined,
            'the last dose given in the clinic, or the first dose at home',
            'Add "last given: 10:30", or "first: 2026-03-10 20:00" where none was given.',
          ),
          path: ['last given'],
        });
      }
      heedForm(medicine, context);
    });

export type MedicineText = z.output<ReturnType<typeof medicineSchema>>;
