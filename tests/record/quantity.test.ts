import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { positive, quantity, unitOf } from '../../src/record/quantity.js';
import { refusalOf } from '../../src/record/refusal.js';

const tablets = quantity(['tablet', 'mL'], 'how much');
const weight = positive(['kg', 'lb', 'g'], 'the weight');

const value = (schema: typeof tablets | typeof weight, written: string) =>
  schema.parse(written).value;

/** How to mend a text that is refused. */
function mend(schema: z.ZodType, written: unknown): string {
  const result = schema.safeParse(written);
  expect(result.success, String(written)).toBe(false);
  const [issue] = result.error?.issues ?? [];
  const refusal = issue?.code === 'custom' ? refusalOf(issue.params) : null;
  return refusal?.mend ?? issue?.message ?? '';
}

describe('a quantity', () => {
  it.each([
    [8784, 'h'],
    [3660, 'days'],
    [520, 'weeks'],
    [1200, 'months'],
    [100, 'years'],
  ] as const)(
    'of time is taken up to %d %s, and refused beyond, as no calendar has such days',
    (most, unit) => {
      const span = positive([unit], 'how long');
      expect(span.parse(`${most} ${unit}`).value).toBe(most);
      expect(mend(span, `${most + 1} ${unit}`)).toBe(`Write a time of at most ${most} ${unit}.`);
      expect(mend(span, `9${'0'.repeat(400)} ${unit}`)).toContain(`at most ${most}`);
    },
  );

  it.each([
    ['1 tablet', 1],
    ['2 tablets', 2],
    ['0.5 mL', 0.5],
    ['0.5mL', 0.5],
    ['0.5 ml', 0.5],
    ['  3   millilitres ', 3],
    ['1/2 tablet', 0.5],
    ['3/4 tablet', 0.75],
    ['1 1/2 tablets', 1.5],
    ['2 1/4 tablets', 2.25],
    ['10/4 tablets', 2.5],
    ['0 mL', 0],
    ['007 mL', 7],
  ])('reads "%s" as %d', (written, expected) => {
    expect(value(tablets, written)).toBe(expected);
  });

  it('keeps the text as it was written, and one spelling of the unit', () => {
    expect(weight.parse('40 lbs')).toEqual({ value: 40, unit: 'lb', written: '40 lbs' });
  });

  it.each(['18.4 kg', '40 lb', '40 pounds', '850 grams', '0.85 kilograms'])(
    'takes the spelling "%s"',
    (written) => {
      expect(value(weight, written)).toBeGreaterThan(0);
    },
  );

  it.each([
    ['18.4', 'Add the unit, for example "18.4 kg".'],
    ['1/2', 'Add the unit, for example "1/2 kg".'],
    ['18.4 st', 'Use a unit that is known here: kg, lb, g.'],
    ['18.4 mg', 'Use a unit that is known here: kg, lb, g.'],
    ['4 kg 200 g', 'Use one number with one unit; convert mixed units by hand.'],
    ['18,4 kg', 'Write a decimal point: "18.4 kg".'],
    ['1,000 g', 'Write "1000 g" or "1.000 g": the comma can mean either.'],
    ['-3 kg', 'Write it like "18.4 kg".'],
    ['.5 kg', 'Write it like "18.4 kg".'],
    ['1/0 kg', 'Write it like "18.4 kg".'],
    ['kg', 'Write it like "18.4 kg".'],
    ['', 'Write it like "18.4 kg".'],
    ['about 4 kg', 'Write it like "18.4 kg".'],
    ['0 kg', 'Write the true value, or leave the line out.'],
    ['0.0 kg', 'Write the true value, or leave the line out.'],
    ['0/4 kg', 'Write the true value, or leave the line out.'],
    [`${'9'.repeat(400)} kg`, 'Write a number that this unit can have.'],
  ])('refuses the weight "%s" and says how to mend it', (written, expected) => {
    expect(mend(weight, written)).toBe(expected);
  });

  it.each(['1e3 kg', '1.2.3 kg', '5 kg/day', '4-5 kg', '4 to 5 kg', '1 1 kg', '٣ kg', '4 kg!'])(
    'refuses "%s" rather than guess',
    (written) => {
      expect(mend(weight, written)).not.toBe('');
    },
  );

  it.each([
    [['tablet', 'mL'], 'Write it like "1/2 tablet".'],
    [['days', 'weeks'], 'Write it like "10 days".'],
    [['h'], 'Write it like "12 h".'],
  ] as const)('shows a number that goes with the unit, of %j', (units, expected) => {
    expect(mend(quantity([...units] as [string, ...string[]], 'so much'), 'some')).toBe(expected);
  });

  it('refuses a bare number with the units in the message', () => {
    expect(mend(weight, 18.4)).toBe('the weight, a number and one of these units: kg, lb, g');
  });

  it('reads back each number and unit that it is given', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 10_000_000 }),
        fc.integer({ min: 0, max: 4 }),
        fc.constantFrom('kg', 'lb', 'g'),
        fc.constantFrom('', ' ', '  '),
        (digits, places, unit, gap) => {
          const number = (digits / 10 ** places).toFixed(places);
          expect(weight.parse(`${number}${gap}${unit}`)).toMatchObject({
            value: Number(number),
            unit,
          });
        },
      ),
    );
  });

  it('reads a mixed fraction as its whole and its parts', () => {
    const part = fc.integer({ min: 1, max: 99 });
    fc.assert(
      fc.property(part, part, part, (whole, above, below) => {
        expect(value(tablets, `${whole} ${above}/${below} tablets`)).toBe(whole + above / below);
      }),
    );
  });

  it('accepts or refuses any text, and never throws', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        const read = weight.safeParse(text);
        expect(read.success ? Number.isFinite(read.data.value) : read.error.issues.length > 0).toBe(
          true,
        );
      }),
    );
  });
});

it('knows a unit only among those allowed', () => {
  expect(unitOf('°F', ['C', 'F'])).toBe('F');
  expect(unitOf('ml', ['mg'])).toBeUndefined();
  expect(unitOf('MG', ['mg'])).toBeUndefined();
  expect(unitOf('µg', ['mcg'])).toBe('mcg');
});
