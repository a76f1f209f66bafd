import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { checkDoses } from '../../src/care/dose-check/medicines-for-home.js';
import type { GivenDose, PlannedMedicine } from '../../src/care/dose-check/planned-medicine.js';
import { homeDoses, mostInDay, type Rhythm } from '../../src/care/doses.js';
import { readFormulary } from '../../src/record/read-case.js';
import { accepted } from '../record/sample.js';

/** Invented figures, so that no test rests on a real dose. */
const FORMULARY = accepted(
  readFormulary(
    `about: invented for tests
drugs:
  - drug: gammasone
    ingredients: [gammasone]
    class: corticosteroid
    species: { dog: { dose: 0.1-2 mg/kg, most a day: 4 mg/kg, every: 12 h } }
    source: invented
  - drug: alphafen
    ingredients: [alphafen]
    class: NSAID
    species: { dog: { dose: 1-2 mg/kg, most a day: 4 mg/kg, every: 12-24 h } }
    source: invented
  - drug: deltacillin
    ingredients: [deltacillin]
    class: antibiotic
    species: { dog: { dose: 10-20 mg/kg, most a day: 40 mg/kg, every: 12 h } }
    source: invented
  - drug: deltacillin with clavamol
    ingredients: [deltacillin, clavamol]
    class: antibiotic
    species: { dog: { dose: 10-20 mg/kg, most a day: 40 mg/kg, every: 12 h } }
    source: invented
`,
    'formulary.yaml',
  ),
).value;

const ZONE = 'America/Chicago';
const zoned = (text: string) => Temporal.PlainDateTime.from(text).toZonedDateTime(ZONE);

/** So many doses from a moment on. */
const step = (
  drug: string,
  from: string,
  hours: number,
  count: number,
  more: Partial<PlannedMedicine> = {},
): PlannedMedicine => ({
  drug,
  purpose: drug.startsWith('delta') ? 'infection' : 'pain and swelling',
  route: 'by mouth',
  food: 'with food',
  give: { value: 1, unit: 'mL', written: '1 mL' },
  perKilogram: 1,
  perKilogramDay: Math.ceil(24 / hours),
  hours,
  lastGiven: null,
  asNeededUntil: null,
  doses: Array.from({ length: count }, (_, index) => zoned(from).add({ hours: hours * index })),
  ...more,
});

const given = (drug: string, at: string, perKilogram: number | null): GivenDose => ({
  drug,
  route: 'subcutaneous',
  at: zoned(at),
  perKilogram,
});

const check = (planned: PlannedMedicine[], clinic: GivenDose[] = []) =>
  checkDoses(FORMULARY, 'dog', planned, clinic);

describe('the most doses within any 24 hours', () => {
  const most = (rhythm: Rhythm, first: string, doses: number) =>
    mostInDay(
      rhythm,
      homeDoses({
        rhythm,
        doses,
        lastGiven: null,
        first: Temporal.PlainDateTime.from(first),
        timeZone: ZONE,
      }),
    );
  const thrice: Rhythm = { kind: 'at', times: ['08:00', '12:00', '20:00'] };

  it('count a first dose that lies off the listed times: 04:00, 08:00, 12:00, 20:00', () => {
    expect(most(thrice, '2026-05-05T04:00', 9)).toBe(4);
    expect(most(thrice, '2026-05-05T04:00', 3)).toBe(3);
    expect(most(thrice, '2026-05-05T08:00', 9)).toBe(3);
  });

  it('leave the dose at hour 24 to the next day, however few doses there are', () => {
    for (const [hours, inDay] of [
      [6, 4],
      [7, 4],
      [8, 3],
      [12, 2],
      [24, 1],
      [36, 1],
    ] as const) {
      expect(most({ kind: 'every', hours }, '2026-05-05T08:00', 20), `${hours} h`).toBe(inDay);
    }
    expect(most({ kind: 'every', hours: 6 }, '2026-05-05T08:00', 2)).toBe(2);
  });

  it('are not more in the night from which a clock change takes an hour', () => {
    const daily: Rhythm = { kind: 'at', times: ['20:00'] };
    expect(most(daily, '2026-03-07T20:00', 3)).toBe(1);
    // 0, 11.5 and 23 hours: all within a day, whatever the clock shows.
    expect(most({ kind: 'every', hours: 11.5 }, '2026-03-07T20:00', 3)).toBe(3);
  });
});

describe('the steps of one course', () => {
  // 20:00 on the 5th, every 12 h, six doses: the last at 08:00 on the 8th.
  const first = step('gammasone', '2026-05-05T20:00', 12, 6);

  it('do not clash with one another where one begins when the one before is over', () => {
    expect(check([first, step('Gammasone', '2026-05-08T20:00', 12, 6)])).toEqual([]);
    expect(check([step('gammasone', '2026-05-08T20:00', 12, 6), first])).toEqual([]);
  });

  it('clash where one begins too soon after the last dose of the other, or before it', () => {
    for (const from of ['2026-05-08T19:59', '2026-05-08T08:00', '2026-05-07T20:00']) {
      expect(check([first, step('gammasone', from, 12, 6)]), from).toMatchObject([
        { medicine: 1, found: 'gammasone and gammasone within 24 h' },
      ]);
    }
  });

  it('clash with another medicine once', () => {
    const second = step('gammasone', '2026-05-08T20:00', 12, 6);
    expect(check([first, second, step('alphafen', '2026-05-06T09:00', 24, 3)])).toMatchObject([
      { medicine: 2, found: 'alphafen and gammasone within 24 h' },
    ]);
  });

  it('may be given less often from step to step, and not more often', () => {
    const seldom = (hours: number) => step('gammasone', '2026-05-09T08:00', hours, 5);
    for (const hours of [24, 48, 72]) expect(check([first, seldom(hours)])).toEqual([]);
    const kind = 'an interval out of its range';
    for (const hours of [8, 96]) {
      expect(check([first, seldom(hours)])).toMatchObject([{ medicine: 1, kind }]);
    }
    expect(check([seldom(24)])).toMatchObject([{ medicine: 0, kind }]);
  });
});

describe('doses of the clinic that share an ingredient with a medicine for home', () => {
  const atHome = (drug: string) =>
    step(drug, '2026-05-05T20:00', 12, 6, { perKilogram: 15, perKilogramDay: 30 });

  it('are added, the home one being a combination or the clinic one', () => {
    // 15 + 15 within 24 h of 10:00 at 20:00 and 08:00, and 15 in the clinic: 45 mg/kg of at most 40.
    for (const [home, clinic] of [
      ['deltacillin with clavamol', 'deltacillin'],
      ['deltacillin', 'deltacillin with clavamol'],
    ] as const) {
      const said = check(
        [{ ...atHome(home), lastGiven: zoned('2026-05-05T10:00') }],
        [given(clinic, '2026-05-05T10:00', 15)],
      );
      expect(said).toMatchObject([
        {
          kind: 'more than the most in a day',
          weight: 'warn',
          found: `45 mg/kg of ${home} within 24 h, the doses of ${clinic} in the clinic included`,
          expected: 'at most 40 mg/kg a day, as the formulary says',
        },
      ]);
    }
  });

  it('are left alone up to the most of a day', () => {
    expect(
      check(
        [{ ...atHome('deltacillin with clavamol'), lastGiven: zoned('2026-05-05T10:00') }],
        [given('deltacillin', '2026-05-05T10:00', 10)],
      ),
    ).toEqual([]);
  });

  it('are told where they have no mass, instead of being taken for nothing', () => {
    const counted = { ...atHome('deltacillin'), lastGiven: zoned('2026-05-05T10:00') };
    expect(check([counted], [given('deltacillin', '2026-05-05T10:00', null)])).toMatchObject([
      {
        kind: 'a medicine that nothing was checked against',
        weight: 'warn',
        found: 'deltacillin within 24 h of deltacillin in the clinic, whose mass is not known',
      },
    ]);
    // Its day is over when the first dose is due at home.
    expect(check([counted], [given('deltacillin', '2026-05-04T20:00', null)])).toEqual([]);
  });
});
