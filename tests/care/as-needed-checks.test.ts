import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { checkDoses } from '../../src/care/dose-check/medicines-for-home.js';
import type { GivenDose, PlannedMedicine } from '../../src/care/dose-check/planned-medicine.js';
import { readFormulary } from '../../src/record/read-case.js';
import { accepted } from '../record/sample.js';

/** Invented figures, so that no test rests on a real dose. */
const FORMULARY = accepted(
  readFormulary(
    `about: invented for tests
drugs:
  - drug: alphafen
    ingredients: [alphafen]
    class: NSAID
    species: { dog: { dose: 1-2 mg/kg, most a day: 4 mg/kg, every: 8-24 h } }
    source: invented
  - drug: betafen
    ingredients: [betafen]
    class: NSAID
    species: { dog: { dose: 1-2 mg/kg, most a day: 4 mg/kg, every: 8-24 h } }
    source: invented
  - drug: gammadol
    ingredients: [gammadol]
    class: opioid
    species: { dog: { dose: 1-2 mg/kg, most a day: 9 mg/kg, every: 8-12 h } }
    source: invented
  - drug: deltadol
    ingredients: [deltadol]
    class: opioid
    species: { dog: { dose: 1-2 mg/kg, most a day: 9 mg/kg, every: 8-12 h } }
    source: invented
`,
    'formulary.yaml',
  ),
).value;

const at = (text: string) => Temporal.PlainDateTime.from(text).toZonedDateTime('America/Chicago');

/** 1 mg/kg from the evening of the 5th until the end of the 7th, at least 8 h apart, up to twice a day. */
const needed = (drug: string, more: Partial<PlannedMedicine> = {}): PlannedMedicine => ({
  drug,
  purpose: drug.endsWith('fen') ? 'pain and swelling' : 'pain',
  route: 'by mouth',
  food: 'with food',
  give: { value: 1, unit: 'tablet', written: '1 tablet' },
  perKilogram: 1,
  perKilogramDay: 2,
  hours: 8,
  lastGiven: null,
  doses: [at('2026-05-05T20:00'), at('2026-05-06T04:00'), at('2026-05-06T20:00')],
  asNeededUntil: at('2026-05-08T00:00'),
  ...more,
});

const byTheHour = (drug: string, ...doses: string[]): PlannedMedicine =>
  needed(drug, { doses: doses.map(at), asNeededUntil: null });

const check = (planned: PlannedMedicine[], clinic: GivenDose[] = []) =>
  checkDoses(FORMULARY, 'dog', planned, clinic);

describe('a medicine as needed against the formulary', () => {
  it('is held to the range of one dose and to the most of a day, at the most that may be given', () => {
    expect(check([needed('alphafen')])).toEqual([]);
    expect(check([needed('alphafen', { perKilogram: 0.5 })])).toMatchObject([
      { weight: 'warn', field: 'give', found: '0.5 mg/kg of alphafen at one time' },
    ]);
    // Three of 1.5 are 4.5.
    const often = needed('alphafen', { perKilogram: 1.5, perKilogramDay: 4.5 });
    expect(check([often])).toMatchObject([
      {
        kind: 'more than the most in a day',
        weight: 'stop',
        found: '4.5 mg/kg of alphafen within 24 h',
      },
    ]);
  });

  it('may wait longer than is usual from dose to dose, but not shorter', () => {
    expect(check([needed('alphafen', { hours: 48 })])).toEqual([]);
    expect(check([needed('alphafen', { hours: 6 })])).toMatchObject([
      {
        kind: 'an interval out of its range',
        field: 'rhythm',
        found: 'alphafen at least 6 h apart',
        expected: 'at least 8 h apart, as the formulary says',
      },
    ]);
  });

  it('counts the doses of the clinic with those that may follow soonest', () => {
    const there = { drug: 'alphafen', route: 'subcutaneous', at: at('2026-05-05T10:00') } as const;
    // 3 in the clinic, 1 at 20:00 and 1 at 4:00, all within 24 h of 10:00.
    expect(
      check([needed('alphafen', { lastGiven: there.at })], [{ ...there, perKilogram: 3 }]),
    ).toMatchObject([
      {
        weight: 'warn',
        found: '5 mg/kg of alphafen within 24 h, the doses in the clinic included',
      },
    ]);
    // Four hours before the first moment, and not counted from.
    const forgotten = { ...there, at: at('2026-05-05T16:00'), perKilogram: 1 };
    expect(check([needed('alphafen')], [forgotten])).toMatchObject([
      {
        kind: 'a dose in the clinic that the plan does not count',
        found: 'alphafen 4 h after alphafen in the clinic',
      },
    ]);
  });
});

describe('a medicine that nobody gives only as needed', () => {
  it.each(['infection', 'heart rhythm', 'hormones', 'diabetes'])(
    'is asked about: for %s',
    (purpose) => {
      expect(check([needed('deltadol', { purpose })])).toContainEqual(
        expect.objectContaining({
          kind: 'a medicine that is hardly given as needed',
          weight: 'warn',
          field: 'for',
        }),
      );
      const hours = { ...byTheHour('deltadol', '2026-05-06T08:00'), purpose };
      expect(check([hours]).map(({ kind }) => kind)).not.toContain(
        'a medicine that is hardly given as needed',
      );
    },
  );

  it('is not asked about for pain, rest or nausea', () => {
    for (const purpose of ['pain', 'calm rest']) {
      expect(check([needed('gammadol', { purpose })])).toEqual([]);
    }
  });
});

describe('a medicine as needed beside another', () => {
  it('may come at any time up to the end of its last day, and so meets one that begins late', () => {
    // The last of its soonest doses is 46 h before, the end of its last day 20 h.
    const late = byTheHour('betafen', '2026-05-08T20:00');
    const why = { kind: 'drugs that do not go together', expected: 'one NSAID at a time' };
    expect(check([late, needed('alphafen')])).toMatchObject([{ medicine: 1, ...why }]);
    expect(check([needed('alphafen'), late])).toMatchObject([{ medicine: 1, ...why }]);
    expect(check([byTheHour('betafen', '2026-05-09T00:01'), needed('alphafen')])).toEqual([]);
  });

  it('is no second opioid at home, in whichever list; in the clinic opioids follow one another', () => {
    const hourly = byTheHour('gammadol', '2026-05-06T08:00', '2026-05-06T16:00');
    expect(check([hourly, needed('deltadol')])).toMatchObject([
      { kind: 'drugs that do not go together', expected: 'one opioid at a time at home' },
    ]);
    const there = { drug: 'gammadol', route: 'intramuscular', perKilogram: 1 } as const;
    expect(check([needed('deltadol')], [{ ...there, at: at('2026-05-05T12:00') }])).toEqual([]);
  });

  it('is asked about where it is the same drug, and stopped where both come to more than a day’s most', () => {
    const twice = byTheHour('alphafen', '2026-05-06T08:00', '2026-05-06T20:00', '2026-05-07T08:00');
    // 1 + 1 by the hour and 2 as needed are 4, the most.
    expect(check([twice, needed('alphafen')])).toMatchObject([
      { weight: 'warn', kind: 'drugs that do not go together' },
    ]);
    // 1.5 + 1.5 + 2 = 5.
    const more = { ...twice, perKilogram: 1.5, perKilogramDay: 3 };
    expect(check([more, needed('alphafen')])).toMatchObject([
      { weight: 'warn', kind: 'drugs that do not go together' },
      {
        medicine: 1,
        weight: 'stop',
        kind: 'more than the most in a day',
        field: 'give',
        found: 'up to 5 mg/kg of alphafen within 24 h, all medicines of that name together',
      },
    ]);
  });

  it('counts no more of it within a day than there is room for before or behind', () => {
    const alone = { perKilogram: 1.5, perKilogramDay: 3 };
    const stops = (dose: string) =>
      check([
        { ...byTheHour('alphafen', dose), ...alone },
        needed('alphafen', { perKilogram: 1.5, perKilogramDay: 3 }),
      ]).filter(({ weight }) => weight === 'stop');
    // 3 as needed in the day before the end of its last day, and 1.5 at 6:00 of the next.
    expect(stops('2026-05-08T06:00')).toMatchObject([
      { found: expect.stringContaining('4.5 mg/kg') },
    ]);
    // Of the day up to 20:00 only 4 h lie before the end: room for one.
    expect(stops('2026-05-08T20:00')).toEqual([]);
  });
});
