import { z } from 'zod';
import { refusal } from './refusal.js';

/** A number with its unit, and the text as the author wrote it. */
export interface Quantity<U extends string = string> {
  readonly value: number;
  readonly unit: U;
  readonly written: string;
}

/** Spellings that people use for a unit, beside the unit itself. */
const SPELLINGS: Readonly<Record<string, readonly string[]>> = {
  kg: ['kgs', 'kilogram', 'kilograms'],
  g: ['gram', 'grams'],
  lb: ['lbs', 'pound', 'pounds'],
  mg: ['milligram', 'milligrams'],
  mcg: ['µg', 'μg', 'ug', 'microgram', 'micrograms'],
  mL: ['ml', 'millilitre', 'millilitres', 'milliliter', 'milliliters'],
  L: ['l', 'litre', 'litres', 'liter', 'liters'],
  mm: ['millimetre', 'millimetres', 'millimeter', 'millimeters'],
  cm: ['centimetre', 'centimetres', 'centimeter', 'centimeters'],
  tablet: ['tablets'],
  capsule: ['capsules'],
  drop: ['drops'],
  pea: ['peas'],
  'thin layer': ['thin layers'],
  C: ['°C', 'degC'],
  F: ['°F', 'degF'],
  h: ['hour', 'hours', 'hr', 'hrs'],
  min: ['minute', 'minutes'],
  days: ['day', 'd'],
  weeks: ['week'],
  months: ['month'],
  years: ['year'],
  '/min': ['per minute', 'per min', 'bpm'],
};

/** An amount as a record may write it: `0.5 tablet`, `12 tablets`, `3 mL`, `2 cm`; only words have a plural. */
export const writtenAmount = (value: number, unit: string): string =>
  `${value} ${value > 1 && SPELLINGS[unit]?.includes(`${unit}s`) ? `${unit}s` : unit}`;

/**
 * The longest spans that a record of one surgery can mean: a year from dose to dose, ten years for what comes after it, a
 * hundred for an age. A slip that is longer would lead to days that no calendar has. Not a clinical number.
 */
const LONGEST: Readonly<Record<string, number>> = {
  h: 8784,
  days: 3660,
  weeks: 520,
  months: 1200,
  years: 100,
};

/** A number that somebody may write with a unit; a tablet is not cut into tenths, and nobody rests for 18.4 days. */
const EXAMPLES: Readonly<Record<string, string>> = {
  tablet: '1/2',
  days: '10',
  years: '6',
  mm: '4',
  mg: '6.6',
  h: '12',
  '/min': '8',
  Hz: '500',
  mmHg: '65',
};

/** What a quantity looks like. */
const like = (unit: string): string => `${EXAMPLES[unit] ?? '18.4'} ${unit}`;

/** The longest form first: of `1 1/2 tablets` the number is `1 1/2`, not `1`. */
const NUMBER = String.raw`\d+ \d+\/\d+|\d+\/\d+|\d+(?:\.\d+)?`;
const QUANTITY = new RegExp(`^(${NUMBER})\\s*(\\D.*)$`);

/** Reads `18.4`, `1/2` or `1 1/2`; null when it is none of these. */
function readNumber(text: string): number | null {
  const parts = /^(?:(\d+(?:\.\d+)?)|(?:(\d+) )?(\d+)\/(\d+))$/.exec(text);
  if (!parts) return null;
  if (parts[1] !== undefined) return Number(parts[1]);
  const whole = Number(parts[2] ?? 0);
  const below = Number(parts[4]);
  return below === 0 ? null : whole + Number(parts[3]) / below;
}

/** The unit that a spelling means, among those allowed here. */
export function unitOf<U extends string>(spelling: string, units: readonly U[]): U | undefined {
  const plain = spelling.trim();
  return units.find((unit) => unit === plain || SPELLINGS[unit]?.includes(plain));
}

/**
 * Text such as `18.4 kg` to its number and unit. A missing, unknown or second unit is refused, never guessed.
 * @param units the units that make sense for this field
 */
export function quantity<const U extends string>(
  units: readonly [U, ...U[]],
  meaning: string,
): z.ZodType<Quantity<U>, string> {
  const example = `a number and one of these units: ${units.join(', ')}`;
  return z
    .string({ error: `${meaning}, ${example}` })
    .meta({ description: `${meaning}: ${example}, for example "${like(units[0])}"` })
    .transform((written, context): Quantity<U> => {
      const text = written.trim();
      const fail = (mend: string) => {
        context.addIssue(
          refusal(
            'a number and unit that are not understood',
            written,
            `${meaning}, ${example}`,
            mend,
          ),
        );
        return z.NEVER;
      };
      if (/^\d+,\d+/.test(text)) {
        return fail(
          // `1,000 mg` is a thousand to one reader and one to the next.
          /^\d{1,3}(,\d{3})+(?!\d)/.test(text)
            ? `Write "${text.replaceAll(',', '')}" or "${text.replace(',', '.')}": the comma can mean either.`
            : `Write a decimal point: "${text.replace(',', '.')}".`,
        );
      }
      if (readNumber(text) !== null) {
        return fail(`Add the unit, for example "${text} ${units[0]}".`);
      }
      const parts = QUANTITY.exec(text);
      const value = parts ? readNumber(parts[1] as string) : null;
      if (!parts || value === null) {
        return fail(`Write it like "${like(units[0])}".`);
      }
      const unit = unitOf(parts[2] as string, units);
      if (unit === undefined) {
        return fail(
          /\d/.test(parts[2] as string)
            ? 'Use one number with one unit; convert mixed units by hand.'
            : `Use a unit that is known here: ${units.join(', ')}.`,
        );
      }
      const longest = LONGEST[unit] ?? Number.POSITIVE_INFINITY;
      if (value > longest) return fail(`Write a time of at most ${longest} ${unit}.`);
      if (!Number.isFinite(value)) return fail('Write a number that this unit can have.');
      return { value, unit, written: text };
    });
}

/** As `quantity`, refusing zero. */
export function positive<const U extends string>(
  units: readonly [U, ...U[]],
  meaning: string,
): z.ZodType<Quantity<U>, string> {
  return quantity(units, meaning).superRefine((found, context) => {
    if (found.value === 0) {
      context.addIssue(
        refusal(
          'an amount of zero',
          found.written,
          `${meaning} above zero`,
          'Write the true value, or leave the line out.',
        ),
      );
    }
  });
}
