import { z } from 'zod';
import { quantity } from './quantity.js';
import { refusal } from './refusal.js';
import { CLINIC_ROUTES, SPECIES } from './vocabulary.js';
import { oneOf, text } from './words.js';

/** Classes by which medicines clash; everything else is "other". */
const DRUG_CLASSES = ['NSAID', 'corticosteroid', 'opioid', 'antibiotic', 'other'] as const;
export type DrugClass = (typeof DRUG_CLASSES)[number];

/** From and to, both included. */
export type Span = readonly [low: number, high: number];

/** `0.1-0.2 mg/kg`, `0.1 mg/kg` or `20-50 mcg/kg` to mg/kg. */
const perKilogram = (meaning: string) =>
  span(meaning, '0.1-0.2 mg/kg', ['mg/kg', 'mcg/kg']).transform(
    ({ from, to, unit }): Span => (unit === 'mg/kg' ? [from, to] : [from / 1000, to / 1000]),
  );

/** `8-12 h` to hours. */
const hours = (meaning: string) =>
  span(meaning, '8-12 h', ['h']).transform(({ from, to }): Span => [from, to]);

/** A number or two joined by a dash, above zero and the smaller one first, with one unit. */
function span(meaning: string, example: string, units: readonly [string, ...string[]]) {
  const expected = `${meaning}, such as "${example}"`;
  const one = quantity(units, meaning);
  return z
    .string({ error: expected })
    .meta({ description: expected })
    .transform((written, context) => {
      const [, first = '', second, unit = ''] =
        /^\s*([\d.]+)\s*(?:-\s*([\d.]+)\s*)?([^\d\s].*)$/.exec(written) ?? [];
      const low = one.safeParse(`${first} ${unit}`);
      const high = one.safeParse(`${second ?? first} ${unit}`);
      if (low.success && high.success && low.data.value > 0 && low.data.value <= high.data.value) {
        return { from: low.data.value, to: high.data.value, unit: low.data.unit };
      }
      context.addIssue(
        refusal(
          'a range of doses that is not understood',
          written,
          expected,
          `Write one number, or the smaller, a dash and the larger, and the unit: ${units.join(' or ')}.`,
        ),
      );
      return z.NEVER;
    });
}

const forSpecies = z
  .strictObject({
    dose: perKilogram('the usual dose at one time').optional(),
    'most a day': perKilogram('the most in a day').optional(),
    every: hours('the usual time from dose to dose').optional(),
    'in the clinic': z
      .partialRecord(
        z.enum(CLINIC_ROUTES),
        perKilogram('the usual dose at one time, by that route'),
        {
          error: `a group with the doses by route: ${CLINIC_ROUTES.join(', ')}`,
        },
      )
      .optional()
      .meta({ description: 'the usual dose of one time in the clinic, for each route' }),
    never: text('why this species must not have it').optional(),
  })
  .superRefine((row, context) => {
    const told = [row.dose, row['most a day'], row.every].filter((part) => part !== undefined);
    const inClinic = row['in the clinic'] !== undefined;
    const complete =
      row.never === undefined
        ? told.length === 3 || (told.length === 0 && inClinic)
        : told.length === 0 && !inClinic;
    if (!complete) {
      context.addIssue(
        refusal(
          'a row of the formulary that is not complete',
          undefined,
          '"dose", "most a day" and "every", or "in the clinic", or all four; or "never" alone',
          'Add what is missing, or remove what does not belong.',
        ),
      );
    } else if (row.dose && row['most a day'] && row['most a day'][1] < row.dose[1]) {
      context.addIssue({
        ...refusal(
          'a daily dose below the single dose',
          `${row['most a day'][1]} mg/kg`,
          `at least the ${row.dose[1]} mg/kg of one dose`,
          'Mend one of the two.',
        ),
        path: ['most a day'],
      });
    }
  });

const drug = z.strictObject({
  drug: text('the generic name, as the records write it'),
  ingredients: z
    .array(text('one active ingredient'))
    .min(1, { error: 'at least one active ingredient' })
    .meta({ description: 'the active ingredients' }),
  class: oneOf('the class', DRUG_CLASSES),
  species: z.partialRecord(z.enum(SPECIES), forSpecies, {
    error: `a group with the species that the clinic gives it to: ${SPECIES.join(', ')}`,
  }),
  notes: text('what the clinic wants to remember').optional(),
  source: text('where the figures were read'),
});

/** `formulary.yaml`: the clinic's own doses. The program has none of its own. */
export const formularySchema = z
  .strictObject({
    about: text('whose formulary it is and who checked it'),
    drugs: z.array(drug),
  })
  .superRefine(({ drugs }, context) => {
    for (const [index, { drug: name }] of drugs.entries()) {
      if (drugs.findIndex((other) => sameDrug(other.drug, name)) === index) continue;
      context.addIssue({
        ...refusal('a drug listed twice', name, 'each drug once', 'Join the two rows.'),
        path: ['drugs', index, 'drug'],
      });
    }
  });

export type Formulary = z.output<typeof formularySchema>;
export type FormularyDrug = Formulary['drugs'][number];

/** Whether two names differ by no more than capitals and spaces. */
export const sameDrug = (a: string, b: string): boolean => plain(a) === plain(b);
const plain = (name: string) => name.trim().replace(/\s+/g, ' ').toLowerCase();
