import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { buildFacts } from '../../src/facts/build-facts.js';
import { readVitals } from '../../src/record/vitals-file.js';
import { accepted, type Change, caseWith, clinicWith, problemsOf } from '../record/sample.js';

const built = (...changes: Change[]) =>
  buildFacts(
    clinicWith(),
    accepted(caseWith(...changes)),
    accepted(
      readVitals(
        'clock,SpO2 [%]\n09:10,98\n',
        'vitals.csv',
        Temporal.PlainDateTime.from('2026-03-09T09:10'),
      ),
    ),
    [],
  );
const medicine = (...changes: Change[]) => {
  const [only] = accepted(built(...changes)).home.medicines;
  if (!only) throw new Error('The sample has one medicine.');
  return only;
};

describe('a medicine at home', () => {
  it('has its doses, amounts and needs computed', () => {
    const { doses, milligram, perKilogram, needed } = medicine();
    expect(doses.value).toHaveLength(6);
    expect(doses.value[0]).toBe('2026-03-09T20:40-05:00');
    expect(doses.value.at(-1)).toBe('2026-03-12T08:40-05:00');
    expect(milligram.value).toBe(25);
    expect(perKilogram.value).toBe(2);
    expect(needed.value).toBe(3);
    expect(perKilogram.from).toContain('case.yaml:9 patient.weight');
  });

  it('gives a 20-pound dog 5 mg/kg in 4.6 mL of 10 mg/mL (bestvetaustin.com, "Medical math for fun", B)', () => {
    const { milligram, perKilogram } = medicine(
      ['weight: 12.5 kg', 'weight: 20 lb'],
      ['strength: 50 mg/tablet', 'strength: 10 mg/mL'],
      ['give: 1/2 tablet', 'give: 4.6 mL'],
      ['dispensed: 3 tablets', 'dispensed: 30 mL'],
    );
    expect(milligram.value).toBeCloseTo(46, 9);
    // The worked example rounds 2.2 lb to the kilogram and the volume to 0.1 mL.
    expect(perKilogram.value).toBeCloseTo(5, 0);
    expect(Math.abs(perKilogram.value / 5 - 1)).toBeLessThan(0.02);
  });

  it('needs 15 tablets of 25 mg for 25 mg each 8 hours over 5 days (arithmetic)', () => {
    const { needed, milligram } = medicine(
      ['strength: 50 mg/tablet', 'strength: 25 mg/tablet'],
      ['give: 1/2 tablet', 'give: 1 tablet'],
      ['every: 12 h', 'every: 8 h'],
      ['doses: 6', 'doses: 15'],
      ['dispensed: 3 tablets', 'dispensed: 15 tablets'],
    );
    expect([needed.value, milligram.value]).toEqual([15, 25]);
  });

  it('counts thirds of a tablet without a rest', () => {
    const thirds = medicine(['give: 1/2 tablet', 'give: 1/3 tablet'], ['3 tablets', '2 tablets']);
    expect(thirds.needed.value).toBe(2);
  });
});

describe('a medicine is a problem', () => {
  const only = (...changes: Change[]) => {
    const problems = problemsOf(built(...changes));
    expect(problems).toHaveLength(1);
    return problems[0];
  };

  it('where less was handed out than is needed', () => {
    expect(only(['dispensed: 3 tablets', 'dispensed: 2.5 tablets'])).toEqual({
      file: 'case.yaml',
      line: 52,
      column: 7,
      field: 'home.medicines[0].dispensed',
      found: '2.5 tablets',
      expected: 'at least 3 tablet for 6 doses of 1/2 tablet',
      mend: 'Hand out more, or mend the number of doses.',
    });
  });

  it('where its first dose comes before the patient is home', () => {
    expect(only(['every: 12 h', 'every: 6 h'])).toMatchObject({
      field: 'home.medicines[0].last given',
      found: 'a first home dose at 2026-03-09 14:40',
      expected: 'a time after the patient goes home at 15:00',
    });
  });

  it('where times of day leave more than one and a half intervals before the first dose', () => {
    expect(only(['every: 12 h', 'at: [08:00, 20:00]'])).toMatchObject({
      field: 'home.medicines[0].at',
      found: 'a first home dose 23.3 h after the last one in the clinic',
      mend: 'Decide on the first home dose and write it, for example "first: 2026-03-11 08:00".',
    });
  });

  it.each(['2026-03-09 20:30', '2026-03-09 16:00'])(
    'where the first dose was set too soon after the last: %s',
    (first) => {
      expect(only(['doses: 6', `first: ${first}\n      doses: 6`])).toEqual({
        file: 'case.yaml',
        line: 51,
        column: 7,
        field: 'home.medicines[0].first',
        found: first,
        expected: 'at least 12 h after the last dose in the clinic at 08:40',
        mend: 'Write a later first dose, or mend the time of the last one.',
      });
    },
  );

  it('but not where the veterinarian set the first dose later', () => {
    expect(medicine(['doses: 6', 'first: 2026-03-10 08:00\n      doses: 6']).doses.value[0]).toBe(
      '2026-03-10T08:00-05:00',
    );
  });

  it('nor where a clock change takes an hour from the night between', () => {
    const { doses } = medicine(
      ['  date: 2026-03-09', '  date: 2026-03-07'],
      ['last given: 08:40', 'last given: 20:00\n      first: 2026-03-08 08:00'],
      ['discharge: 15:00', 'discharge: 21:00'],
    );
    expect(doses.value[0]).toBe('2026-03-08T08:00-05:00');
  });
});

describe('days at home', () => {
  it('are counted from the day of surgery', () => {
    const { collarUntil, restUntil } = accepted(built()).home;
    expect([collarUntil.value, restUntil.value]).toEqual(['2026-03-21', '2026-03-23']);
  });

  it('put a visit on the nearest open day', () => {
    expect(accepted(built(['after: 3 days', 'after: 10 days'])).home.rechecks).toMatchObject([
      { what: 'wound check', on: { value: '2026-03-20' } },
    ]);
  });

  it('say that no collar is asked for', () => {
    expect(accepted(built(['  collar: 12 days\n', ''])).home.collarUntil).toEqual({
      value: null,
      why: 'The record asks for no collar.',
    });
  });
});
