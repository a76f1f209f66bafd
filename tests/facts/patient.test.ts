import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { USUAL_WEIGHT } from '../../src/care/weight.js';
import { buildFacts } from '../../src/facts/build-facts.js';
import { readVitals } from '../../src/record/vitals-file.js';
import { SPECIES } from '../../src/record/vocabulary.js';
import { accepted, type Change, caseWith, clinicWith } from '../record/sample.js';
import { demo } from './demo.js';

const warned = (...changes: Change[]) =>
  accepted(
    buildFacts(
      clinicWith(),
      accepted(caseWith(...changes)),
      accepted(
        readVitals(
          'clock,SpO2 [%]\n09:10,98\n',
          'vitals.csv',
          Temporal.PlainDateTime.from('2026-03-09T09:10').toZonedDateTime('America/Chicago'),
        ),
      ),
      [],
    ),
  ).warnings.filter(({ field = '' }) => !field.startsWith('home'));
const weighing = (weight: string): Change => ['weight: 12.5 kg', `weight: ${weight}`];
const SPAY: Change = ['procedure: skin lump removal', 'procedure: spay'];
const INTACT: Change = ['neutered: yes', 'neutered: no'];

describe('a weight', () => {
  it.each(SPECIES)(
    'of a %s is asked about under and over what is usual, not at the ends',
    (species) => {
      const [least, most] = USUAL_WEIGHT[species];
      const asked = (kilogram: number) =>
        warned(['species: dog', `species: ${species}`], weighing(`${kilogram} kg`)).map(
          ({ kind }) => kind,
        );
      for (const kilogram of [least, most]) expect(asked(kilogram)).toEqual([]);
      for (const kilogram of [least * 0.9, most * 1.1]) {
        expect(asked(kilogram)).toEqual(['a weight that is unusual for the species']);
      }
    },
  );

  it('in pounds is told in kilograms as well, and has its answer under patient', () => {
    expect(warned(weighing('250 lb\n  accepted because: { T314: weighed twice }'))).toMatchObject([
      {
        field: 'patient.weight',
        found: 'a dog of 250 lb, 113.4 kg',
        expected: expect.stringContaining('0.3 to 90 kg'),
        accepted: 'weighed twice',
      },
    ]);
  });

  it('of each demo patient is usual', () => {
    for (const { facts } of demo.cases) expect(facts.warnings).toEqual([]);
  });
});

describe('a spay', () => {
  it('fits a female that was not neutered before', () => {
    expect(warned(SPAY, INTACT)).toEqual([]);
  });

  it('of a male is asked about', () => {
    expect(warned(SPAY, INTACT, ['sex: female', 'sex: male'])).toMatchObject([
      {
        kind: 'a procedure that does not fit the patient',
        field: 'surgery.procedure',
        found: 'spay of a male dog',
        expected: 'spay of a female',
        accepted: null,
      },
    ]);
  });

  it('of a neutered patient is asked about, and may be of what was left behind', () => {
    const because: Change = [
      'neutered: yes',
      'neutered: yes\n  accepted because: { T315: a remnant of the ovary }',
    ];
    expect(warned(SPAY, because)).toMatchObject([
      {
        found: 'spay of a dog that was neutered before this surgery',
        accepted: 'a remnant of the ovary',
      },
    ]);
  });
});
