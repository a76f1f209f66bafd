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
        Temporal.PlainDateTime.from('2026-03-09T09:10').toZonedDateTime('America/Chicago'),
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
    expect(perKilogram).toHaveProperty(
      'from',
      expect.arrayContaining(['case.yaml:9 patient.weight']),
    );
  });

  it('counts what goes into each of two eyes twice', () => {
    const drops = (route: string) =>
      medicine(
        ['strength: 50 mg/tablet', 'strength: 5 mg/mL'],
        ['give: 1/2 tablet', 'give: 1 drop'],
        ['route: by mouth', `route: ${route}`],
        ['dispensed: 3 tablets', 'dispensed: 5 mL'],
      );
    expect(drops('in the left eye')).toMatchObject({
      needed: { value: 6 },
      milligram: { value: 0.25 },
    });
    expect(drops('in each eye')).toMatchObject({
      needed: { value: 12 },
      milligram: { value: 0.5 },
    });
  });

  it('says of an ointment that its mass is not known, and counts no tube', () => {
    const { milligram, perKilogram, perKilogramDay, needed, measure } = medicine(
      ['strength: 50 mg/tablet', 'strength: 3 mg/g'],
      ['give: 1/2 tablet', 'give: 0.5 cm'],
      ['route: by mouth', 'route: in the eye'],
      ['dispensed: 3 tablets', 'dispensed: 5 g'],
    );
    expect(measure.value).toEqual({ kind: 'smeared' });
    for (const fact of [milligram, perKilogram, perKilogramDay, needed]) {
      expect(fact).toMatchObject({ value: null, why: expect.stringContaining('smeared on') });
    }
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
    expect(Math.abs((perKilogram.value ?? 0) / 5 - 1)).toBeLessThan(0.02);
  });

  it('tells 2.8 mg for 14 kg as 0.2 mg/kg (opentextbc.ca/nursingnumeracy, open textbook, "Calculating Medication Doses Based on Weight", sample exercise 15.1)', () => {
    const { milligram, perKilogram } = medicine(
      ['weight: 12.5 kg', 'weight: 14 kg'],
      ['strength: 50 mg/tablet', 'strength: 2 mg/mL'],
      ['give: 1/2 tablet', 'give: 1.4 mL'],
      ['dispensed: 3 tablets', 'dispensed: 10 mL'],
    );
    expect(milligram.value).toBeCloseTo(2.8, 9);
    expect(perKilogram.value).toBeCloseTo(0.2, 9);
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

  it('counts quarters of a tablet without a rest', () => {
    const quarters = medicine(['give: 1/2 tablet', 'give: 3/4 tablet'], ['3 tablets', '5 tablets']);
    expect(quarters.needed.value).toBe(4.5);
    expect(quarters.measure.value).toEqual({ kind: 'cut', into: 'quarters' });
  });

  it('gives a child of 14 kg 2.8 mg for 0.2 mg/kg (opentextbc.ca, Nursing Numeracy, exercise 15.1)', () => {
    const { milligram, perKilogram } = medicine(
      ['weight: 12.5 kg', 'weight: 14 kg'],
      ['strength: 50 mg/tablet', 'strength: 2 mg/mL'],
      ['give: 1/2 tablet', 'give: 1.4 mL'],
      ['dispensed: 3 tablets', 'dispensed: 30 mL'],
    );
    expect(milligram.value).toBeCloseTo(2.8, 9);
    expect(perKilogram.value).toBeCloseTo(0.2, 9);
  });

  it('adds up the doses of a day to mg per kg and day', () => {
    expect(medicine().perKilogramDay.value).toBe(4);
    const often = medicine(['every: 12 h', 'every: 7 h'], ['doses: 6', 'doses: 5']);
    // Hours 0, 7, 14 and 21 of a day.
    expect(often.perKilogramDay.value).toBe(8);
  });

  it('is not checked where the clinic has no formulary', () => {
    expect(medicine().checked).toEqual({
      value: null,
      why: 'Not checked: the clinic has no formulary.yaml.',
    });
  });

  it('moves on the clock where the clock changes, and says by how much', () => {
    const spring: Change[] = [
      ['  date: 2026-03-09', '  date: 2026-03-07'],
      ['last given: 08:40', 'last given: 08:00\n      first: 2026-03-07 20:00'],
    ];
    const every = medicine(...spring);
    expect(every.clockChanges.value).toEqual([{ dose: 1, minutes: 60 }]);
    expect(every.doses.value[1]).toBe('2026-03-08T09:00-05:00');
    const daily = medicine(...spring, ['every: 12 h', 'at: [08:00, 20:00]']);
    expect(daily.clockChanges.value).toEqual([]);
  });

  it('moves with the first dose where the clock changes after the last one in the clinic', () => {
    const moved = medicine(
      ['  date: 2026-03-09', '  date: 2026-03-07'],
      ['last given: 08:40', 'last given: 14:40'],
    );
    expect(moved.doses.value[0]).toBe('2026-03-08T03:40-05:00');
    expect(moved.clockChanges.value).toEqual([{ dose: 0, minutes: 60 }]);
  });

  it('does not move where the record sets the first dose after the change', () => {
    const set = medicine(
      ['  date: 2026-03-09', '  date: 2026-03-07'],
      ['last given: 08:40', 'last given: 14:40\n      first: 2026-03-08 08:00'],
    );
    expect(set.doses.value.slice(0, 2)).toEqual([
      '2026-03-08T08:00-05:00',
      '2026-03-08T20:00-05:00',
    ]);
    expect(set.clockChanges.value).toEqual([]);
  });
});

describe('a patient that goes home to another time zone', () => {
  const madrid: Change = ['home:\n', 'home:\n  at home in: Europe/Madrid\n'];

  it('has its doses by the clock at home, at the same instants', () => {
    // 20:40 in Chicago, already on summer time, is 02:40 in Madrid, which is not yet.
    const away = medicine(madrid);
    expect(away.doses.value[0]).toBe('2026-03-10T02:40+01:00');
    const there = medicine();
    const instant = (dose = '') => Temporal.Instant.from(dose).epochMilliseconds;
    expect(away.doses.value.map(instant)).toEqual(there.doses.value.map(instant));
    expect(away.lastGiven.value).toBe('2026-03-09T08:40');
    expect(away.clockChanges.value).toEqual([]);
  });

  it('has times of day of its home, a whole interval after the last clinic dose', () => {
    const away = medicine(madrid, ['every: 12 h', 'at: [08:00, 20:00]']);
    // 08:00 in Madrid on the next day is 17 h 20 min after 08:40 in Chicago.
    expect(away.doses.value[0]).toBe('2026-03-10T08:00+01:00');
  });

  it('follows the clock change of its home, not that of the clinic', () => {
    const away = medicine(
      madrid,
      ['  date: 2026-03-09', '  date: 2026-03-27'],
      ['doses: 6', 'doses: 5'],
    );
    // 13:40Z on 2026-03-27 and 12 h steps from there: the third dose, 01:40Z on 03-29, is after Madrid's change at 01:00Z.
    expect(away.clockChanges.value).toEqual([{ dose: 2, minutes: 60 }]);
  });

  it('is refused a zone that does not exist', () => {
    expect(problemsOf(caseWith(['home:\n', 'home:\n  at home in: Europe/Madird\n']))).toMatchObject(
      [{ field: 'home.at home in', expected: 'an IANA time zone' }],
    );
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
      kind: 'too little dispensed',
      file: 'case.yaml',
      line: 52,
      column: 7,
      end: 29,
      field: 'home.medicines[0].dispensed',
      found: '2.5 tablets',
      expected: 'at least 3 tablets for 6 doses of 1/2 tablet',
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
        kind: 'a first home dose too soon',
        file: 'case.yaml',
        line: 51,
        column: 7,
        end: 30,
        field: 'home.medicines[0].first',
        found: first,
        expected: 'at least 12 h after the last dose in the clinic at 08:40',
        mend: 'Write a later first dose, or mend the time of the last one.',
      });
    },
  );

  it.each<[string, Change[], string, string, string]>([
    [
      'a third of a tablet',
      [['give: 1/2 tablet', 'give: 1/3 tablet']],
      '1/3 tablet',
      'whole, half or quarter tablets',
      'Give 0.25 tablet or 0.5 tablet, or use another strength.',
    ],
    [
      'half a tablet that must not be cut',
      [['give: 1/2 tablet', 'give: 1/2 tablet\n      do not cut: yes']],
      '1/2 tablet',
      'whole tablets, as this one must not be cut',
      'Give 1 tablet, or use another strength.',
    ],
    [
      'half a capsule',
      [
        ['strength: 50 mg/tablet', 'strength: 50 mg/capsule'],
        ['give: 1/2 tablet', 'give: 1/2 capsule'],
        ['dispensed: 3 tablets', 'dispensed: 3 capsules'],
      ],
      '1/2 capsule',
      'whole capsules',
      'Give 1 capsule, or use another strength.',
    ],
    [
      'a volume between two lines',
      [
        ['strength: 50 mg/tablet', 'strength: 50 mg/mL'],
        ['give: 1/2 tablet', 'give: 4.5 mL'],
        ['dispensed: 3 tablets', 'dispensed: 30 mL'],
      ],
      '4.5 mL',
      'an amount with a line on a syringe; one of 5 mL has a line every 0.2 mL',
      'Give 4.4 mL or 4.6 mL, or use another strength.',
    ],
  ])('where %s is to be given', (_, changes, found, expected, mend) => {
    expect(only(...changes)).toMatchObject({
      field: 'home.medicines[0].give',
      found,
      expected,
      mend,
    });
  });

  it('where its last dose in the clinic comes after the patient went home', () => {
    expect(only(['last given: 08:40', 'last given: 15:20'])).toMatchObject({
      field: 'home.medicines[0].last given',
      found: '15:20',
      expected: 'a time before the patient goes home at 15:00',
    });
  });

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

  it('offer the other open days around a visit', () => {
    // Day 3 is Thursday 2026-03-12.
    expect(accepted(built()).home.rechecks).toMatchObject([
      { on: { value: '2026-03-12' }, others: ['2026-03-10', '2026-03-11', '2026-03-13'] },
    ]);
  });

  it('expect a result when the clinic is open', () => {
    const awaited = (after: string) =>
      accepted(
        built([
          '  rest: 2 weeks\n',
          `  rest: 2 weeks\n  awaited: [{ result: x, after: ${after} }]\n`,
        ]),
      ).home.awaited[0]?.expected;
    // Day 5 is a Saturday, day 10 the closed Thursday.
    expect(awaited('4 days')).toMatchObject({ value: '2026-03-13' });
    expect(awaited('5 days')).toMatchObject({ value: '2026-03-16' });
    expect(awaited('10 days')).toMatchObject({
      value: '2026-03-20',
      how: 'first open day from 2026-03-19 on',
    });
  });

  it('say that no collar is asked for', () => {
    expect(accepted(built(['  collar: 12 days\n', ''])).home.collarUntil).toEqual({
      value: null,
      why: 'The record asks for no collar.',
    });
  });
});
