import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { measureOf } from '../../src/care/measure.js';
import { buildFacts } from '../../src/facts/build-facts.js';
import { positive, writtenAmount } from '../../src/record/quantity.js';
import { readVitals } from '../../src/record/vitals-file.js';
import { accepted, type Change, caseWith, clinicWith, problemsOf } from '../record/sample.js';

const FORMS = ['tablet', 'capsule', 'mL', 'drop', 'cm', 'pea', 'thin layer'] as const;
const vitals = accepted(
  readVitals(
    'clock,SpO2 [%]\n09:10,98\n',
    'vitals.csv',
    Temporal.PlainDateTime.from('2026-03-09T09:10').toZonedDateTime('America/Chicago'),
  ),
);
const built = (...changes: Change[]) =>
  buildFacts(clinicWith(), accepted(caseWith(...changes)), vitals, []);

describe('an amount that is proposed', () => {
  it('can be written into the record and measured, whatever was asked for', () => {
    const quantity = positive([...FORMS], 'how much');
    fc.assert(
      fc.property(
        fc.constantFrom(...FORMS),
        fc.integer({ min: 1, max: 70_000 }),
        fc.boolean(),
        (form, thousandths, mayCut) => {
          const measure = measureOf(thousandths / 1000, form, mayCut);
          if (measure.kind !== 'unmeasurable') return;
          for (const near of measure.nearest) {
            const read = quantity.parse(writtenAmount(near, form));
            expect(read).toMatchObject({ value: near, unit: form });
            expect(measureOf(read.value, form, mayCut).kind).not.toBe('unmeasurable');
          }
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('is 2 cm or 2.1 cm for 2.05 cm of an ointment', () => {
    const strip: Change[] = [
      ['strength: 50 mg/tablet', 'strength: 3 mg/g'],
      ['give: 1/2 tablet', 'give: 2.05 cm'],
      ['route: by mouth', 'route: on the skin'],
      ['dispensed: 3 tablets', 'dispensed: 5 g'],
    ];
    expect(problemsOf(built(...strip))).toMatchObject([
      { mend: 'Give 2 cm or 2.1 cm, or use another strength.' },
    ]);
  });
});

describe('how the hours of doses came about', () => {
  const how = (...changes: Change[]) => {
    const facts = accepted(built(...changes));
    const [only] = 'home' in facts ? facts.home.medicines : [];
    return only?.doses;
  };
  const first: Change = ['last given: 08:40', 'first: 2026-03-10 09:00'];
  const times: Change = ['every: 12 h', 'at: [09:00, 21:00]'];

  it('is told by what was done', () => {
    expect(how()).toHaveProperty('how', 'every 12 h of elapsed time from the last clinic dose');
    expect(how(first)).toHaveProperty(
      'how',
      'every 12 h of elapsed time from the first dose, which the record sets',
    );
    expect(how(times)).toHaveProperty(
      'how',
      'the listed times of day, the first not sooner than one interval after the last clinic dose',
    );
    expect(how(first, times)).toHaveProperty(
      'how',
      expect.stringMatching(/^the first dose, which the record sets, then the listed times/),
    );
    expect(how(first)?.from[0]).toMatch(/home\.medicines\[0\]\.first$/);
  });
});

it('the dose of a day is counted on the doses as planned: 04:00, 08:00, 12:00 and 20:00', () => {
  const off: Change[] = [
    ['last given: 08:40', 'first: 2026-03-10 04:00'],
    ['every: 12 h', 'at: [08:00, 12:00, 20:00]'],
  ];
  const facts = accepted(built(...off));
  const [only] = 'home' in facts ? facts.home.medicines : [];
  // Half of 50 mg for 12.5 kg is 2 mg/kg; four of them are 8.
  expect(only?.perKilogramDay).toMatchObject({
    value: 8,
    how: 'mg/kg times the 4 doses that can fall within 24 h',
  });
});
