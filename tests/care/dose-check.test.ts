import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { shown } from '../../src/care/dose-check/amounts.js';
import { hoursApart } from '../../src/care/dose-check/between-doses.js';
import { type ClinicDose, rowFor, rowInClinic } from '../../src/care/dose-check/formulary-row.js';
import { checkGiven } from '../../src/care/dose-check/in-the-clinic.js';
import { checkDoses } from '../../src/care/dose-check/medicines-for-home.js';
import type { GivenDose, PlannedMedicine } from '../../src/care/dose-check/planned-medicine.js';
import { homeDoses, type Rhythm } from '../../src/care/doses.js';
import { readFormulary } from '../../src/record/read-case.js';
import { accepted } from '../record/sample.js';
import { randomFrom } from '../synth/random.js';

/** Invented figures, so that no test rests on a real dose. */
const FORMULARY = accepted(
  readFormulary(
    `about: invented for tests
drugs:
  - drug: alphafen
    ingredients: [alphafen]
    class: NSAID
    species:
      dog: { dose: 1-2 mg/kg, most a day: 4 mg/kg, every: 12-24 h }
      cat: { never: it harms cats }
    source: invented
  - drug: betafen
    ingredients: [betafen]
    class: NSAID
    species: { dog: { dose: 100-200 mcg/kg, most a day: 0.2 mg/kg, every: 24 h } }
    source: invented
  - drug: gammasone
    ingredients: [gammasone]
    class: corticosteroid
    species: { dog: { dose: 1 mg/kg, most a day: 2 mg/kg, every: 12-24 h } }
    source: invented
  - drug: alphafen with deltamol
    ingredients: [alphafen, deltamol]
    class: NSAID
    species: { dog: { dose: 1-2 mg/kg, most a day: 4 mg/kg, every: 12 h } }
    source: invented
  - drug: deltacillin
    ingredients: [deltacillin]
    class: antibiotic
    species: { dog: { dose: 1-2 mg/kg, most a day: 4 mg/kg, every: 12 h } }
    source: invented
  - drug: clinicaine
    ingredients: [clinicaine]
    class: other
    species:
      dog: { in the clinic: { infiltration: 1-4 mg/kg } }
      cat: { never: it stops the heart }
    source: invented
`,
    'formulary.yaml',
  ),
).value;

const ZONE = 'America/Chicago';
const zoned = (text: string) => Temporal.PlainDateTime.from(text).toZonedDateTime(ZONE);

const forThe = (species: 'dog' | 'rabbit'): string =>
  species === 'rabbit' ? 'pain and swelling, rabbit' : 'pain and swelling';

const plan = (change: Partial<PlannedMedicine> = {}): PlannedMedicine => {
  const hours = change.hours ?? 12;
  const perKilogram = change.perKilogram ?? 2;
  return {
    drug: 'alphafen',
    purpose: 'pain and swelling',
    route: 'by mouth',
    food: 'with food',
    give: { value: 1, unit: 'tablet', written: '1 tablet' },
    perKilogram,
    perKilogramDay: perKilogram * Math.ceil(24 / hours),
    hours,
    lastGiven: zoned('2026-05-05T08:00'),
    asNeededUntil: null,
    doses: [zoned('2026-05-05T20:00'), zoned('2026-05-06T08:00')],
    ...change,
  };
};

const given = (drug: string, at: string, perKilogram: number | null = null): GivenDose => ({
  drug,
  route: 'subcutaneous',
  at: zoned(at),
  perKilogram,
});

const check = (planned: PlannedMedicine[], clinic: GivenDose[] = [], species = 'dog' as const) =>
  checkDoses(FORMULARY, species, planned, clinic);

describe('a dose against the formulary', () => {
  it('is left alone within the range, its ends included', () => {
    for (const perKilogram of [1, 1.5, 2, 0.1 * 20])
      expect(check([plan({ perKilogram })])).toEqual([]);
  });

  it('stops the case where a species must not have it', () => {
    expect(checkDoses(FORMULARY, 'cat', [plan()], [])).toMatchObject([
      {
        medicine: 0,
        weight: 'stop',
        field: 'drug',
        found: 'alphafen for a cat',
        expected: 'no alphafen for a cat, as the formulary says: it harms cats',
      },
    ]);
  });

  it('stops the case above the most of a day, and only there', () => {
    expect(check([plan({ perKilogram: 2.1 })])).toMatchObject([
      {
        weight: 'stop',
        field: 'give',
        found: '4.2 mg/kg of alphafen within 24 h',
        expected: 'at most 4 mg/kg a day, as the formulary says',
      },
    ]);
    // Above the range of one dose, but a whole day's dose at once.
    expect(check([plan({ perKilogram: 4, hours: 24 })])).toMatchObject([
      { weight: 'warn', field: 'give', found: '4 mg/kg of alphafen at one time' },
    ]);
  });

  it('warns under the range and of an interval that is unusual', () => {
    expect(check([plan({ perKilogram: 0.5, hours: 8 })])).toMatchObject([
      { weight: 'warn', field: 'give', expected: '1 to 2 mg/kg, as the formulary says' },
      {
        weight: 'warn',
        field: 'rhythm',
        found: 'alphafen every 8 h',
        expected: 'every 12 to 24 h, as the formulary says',
      },
    ]);
  });

  it('finds the row by name, whatever the capitals, and reads micrograms', () => {
    expect(rowFor(FORMULARY, ' Betafen', 'dog')).toMatchObject({
      kind: 'checked',
      dose: [0.1, 0.2],
      mostInDay: 0.2,
      hours: [24, 24],
    });
  });

  it.each([
    ['zeta', 'dog', 'the formulary has no row for zeta', null],
    ['alfafen', 'dog', 'the formulary has no row for alfafen', 'alphafen'],
    ['carprofin', 'dog', 'the formulary has no row for carprofin', 'carprofen'],
    // A drug that is known is no slip for another one.
    ['ketoprofen', 'dog', 'the formulary has no row for ketoprofen', null],
    ['betafen', 'rabbit', 'the formulary says nothing of betafen for a rabbit', null],
    ['clinicaine', 'dog', 'the formulary has clinicaine for a dog in the clinic only', null],
  ] as const)(
    'asks a veterinarian where no row speaks of %s for a %s',
    (drug, species, lack, meant) => {
      expect(rowFor(FORMULARY, drug, species)).toEqual({ kind: 'not checked', lack, meant });
      const [finding, ...more] = checkDoses(
        FORMULARY,
        species,
        [plan({ drug, purpose: forThe(species), perKilogram: 1000 })],
        [],
      );
      expect(more).toEqual([]);
      expect(finding).toMatchObject({
        kind: 'a medicine that nothing was checked against',
        weight: 'warn',
        field: 'drug',
        expected: `a row to check it against; ${lack}`,
      });
      expect(finding?.found).toContain(
        `not whether a ${species} may have it, not its dose, not its interval`,
      );
      if (meant === null) expect(finding?.mend).toMatch(/^Look up species and dose/);
      else expect(finding?.mend).toMatch(new RegExp(`^If ${meant} is meant, mend the name\\.`));
    },
  );

  it('says that clashes were not looked for where not even the class is known', () => {
    const found = (drug: string) => checkDoses(null, 'cat', [plan({ drug })], [])[0]?.found;
    expect(found('acetaminophen')).toMatch(/not what it clashes with$/);
    expect(found('meloxicam')).not.toMatch(/clashes/);
  });

  it.each([
    ['carprofen', 'prednisolone', 'no NSAID together with a corticosteroid'],
    ['dexamethasone sodium phosphate', 'meloxicam', 'no NSAID together with a corticosteroid'],
    ['aspirin', 'Firocoxib', 'one NSAID at a time'],
    ['grapiprant', 'mavacoxib', 'one NSAID at a time'],
  ])('knows without a formulary that %s and %s clash', (one, other, why) => {
    const planned = [plan({ drug: one }), plan({ drug: other })];
    expect(checkDoses(null, 'dog', planned, [])).toContainEqual(
      expect.objectContaining({ kind: 'drugs that do not go together', expected: why }),
    );
  });

  it('agrees with a published check: 15 kg, 25-50 mg/kg a day in four doses, 175 mg is within 93.8 to 187.5 mg (polk.edu, NUR 1140C, "Determining safe dose", example 1)', () => {
    const penicillin = accepted(
      readFormulary(
        `about: example of a nursing course
drugs:
  - drug: penicillin
    ingredients: [penicillin]
    class: antibiotic
    species: { dog: { dose: 6.25-12.5 mg/kg, most a day: 50 mg/kg, every: 6 h } }
    source: polk.edu NUR 1140C
`,
        'formulary.yaml',
      ),
    ).value;
    const found = (milligram: number) =>
      checkDoses(
        penicillin,
        'dog',
        [plan({ drug: 'penicillin', purpose: 'infection', perKilogram: milligram / 15, hours: 6 })],
        [],
      ).map(({ weight }) => weight);
    expect([93.75, 175, 187.5].map(found)).toEqual([[], [], []]);
    expect([93, 188].map(found)).toEqual([['warn'], ['stop']]);
  });

  it('agrees with a published range: 24 kg at 0.1 to 0.5 mg/kg is 2.4 to 12 mg (opentextbc.ca/nursingnumeracy, open textbook, "Calculating Medication Doses Based on Weight", sample exercise 15.2)', () => {
    const morphine = accepted(
      readFormulary(
        `about: example of a textbook
drugs:
  - drug: morphine
    ingredients: [morphine]
    class: opioid
    species: { dog: { dose: 0.1-0.5 mg/kg, most a day: 4 mg/kg, every: 4 h } }
    source: opentextbc.ca/nursingnumeracy
`,
        'formulary.yaml',
      ),
    ).value;
    const found = (milligram: number) =>
      checkDoses(
        morphine,
        'dog',
        [plan({ drug: 'morphine', purpose: 'pain', perKilogram: milligram / 24, hours: 4 })],
        [],
      ).map(({ weight, expected }) => `${weight}: ${expected}`);
    expect([2.4, 7, 12].map(found)).toEqual([[], [], []]);
    const range = 'warn: 0.1 to 0.5 mg/kg, as the formulary says';
    expect(found(2.3)).toEqual([range]);
    expect(found(12.2)).toEqual([range]);
  });
});

describe('two medicines that meet', () => {
  const beta = plan({ drug: 'betafen', perKilogram: 0.1, hours: 24, perKilogramDay: 0.1 });

  it('warn where both are NSAIDs', () => {
    expect(check([plan(), beta])).toMatchObject([
      {
        medicine: 1,
        weight: 'warn',
        field: 'drug',
        found: 'betafen and alphafen within 24 h',
        expected: 'one NSAID at a time',
      },
    ]);
  });

  it('warn where one is a corticosteroid', () => {
    const sone = plan({ drug: 'gammasone', perKilogram: 1, perKilogramDay: 2 });
    expect(check([sone, plan()])).toMatchObject([
      { medicine: 1, expected: 'no NSAID together with a corticosteroid' },
    ]);
  });

  it('warn where they share an ingredient, by row or by name', () => {
    expect(check([plan(), plan({ drug: 'alphafen with deltamol' })])).toMatchObject([
      { medicine: 1, expected: 'each ingredient in one medicine only; both hold alphafen' },
    ]);
    const zeta = plan({ drug: 'zeta' });
    expect(checkDoses(null, 'dog', [zeta, zeta], [])).toContainEqual(
      expect.objectContaining({
        medicine: 1,
        expected: 'each ingredient in one medicine only; both hold zeta',
      }),
    );
  });

  it('do not meet where a day or more lies between', () => {
    const later = { ...beta, doses: [zoned('2026-05-07T08:01')] };
    expect(check([plan(), later])).toEqual([]);
    const sooner = { ...beta, doses: [zoned('2026-05-07T08:00')] };
    expect(check([plan(), sooner])).toHaveLength(1);
  });

  it('may be two strengths of one medicine, one a day after the other', () => {
    const next = (at: string) => plan({ drug: 'alphafen with deltamol', doses: [zoned(at)] });
    expect(check([plan(), next('2026-05-07T08:00')])).toEqual([]);
    expect(check([plan(), next('2026-05-07T07:59')])).toHaveLength(1);
  });

  it('lie a day apart at the same time of the clock, though the clock took an hour', () => {
    const before = plan({ doses: [zoned('2026-03-07T20:00')], lastGiven: null });
    const after = plan({ doses: [zoned('2026-03-08T20:00')], lastGiven: null });
    expect(check([before, after])).toEqual([]);
  });
});

describe('a dose in the clinic', () => {
  const dose = (perKilogram: number | null, route: GivenDose['route'] = 'infiltration') => [
    { drug: 'clinicaine', route, perKilogram },
  ];

  it('is left alone within the range of its route', () => {
    for (const perKilogram of [1, 2, 4]) {
      expect(checkGiven(FORMULARY, 'dog', dose(perKilogram))).toEqual([]);
    }
  });

  it('is asked about out of that range, and where the species must not have it', () => {
    expect(checkGiven(FORMULARY, 'dog', dose(20))).toMatchObject([
      {
        kind: 'a dose out of its range',
        dose: 0,
        field: 'dose',
        found: '20 mg/kg of clinicaine, infiltration',
        expected: '1 to 4 mg/kg, as the formulary says of the clinic',
      },
    ]);
    expect(checkGiven(FORMULARY, 'cat', dose(2))).toMatchObject([
      {
        kind: 'a drug that the species never gets',
        field: 'drug',
        expected: 'no clinicaine for a cat, as the formulary says: it stops the heart',
      },
    ]);
  });

  it.each([
    [dose(20, 'intravenous'), 'the formulary has no intravenous dose of clinicaine for a dog'],
    [dose(null), 'the record gives clinicaine as a volume without its strength'],
    // What is given at home says nothing of an injection.
    [
      [{ drug: 'alphafen', route: 'subcutaneous' as const, perKilogram: 20 }],
      'the formulary has no subcutaneous dose of alphafen for a dog',
    ],
  ])('is not checked where there is no figure for it: %#', (given, lack) => {
    expect(checkGiven(FORMULARY, 'dog', given)).toEqual([]);
    expect(rowInClinic(FORMULARY, given[0] as ClinicDose, 'dog')).toMatchObject({
      kind: 'not checked',
      lack: expect.stringContaining(lack),
    });
  });
});

describe('what was given in the clinic', () => {
  it('clashes with an NSAID at home within a day, once however often it was given', () => {
    const clinic = [given('betafen', '2026-05-05T10:00'), given('betafen', '2026-05-05T12:00')];
    expect(check([plan()], clinic)).toMatchObject([
      {
        weight: 'warn',
        found: 'alphafen within 24 h of betafen in the clinic',
        expected: 'one NSAID at a time',
      },
    ]);
    expect(check([plan()], [given('betafen', '2026-05-04T20:00')])).toHaveLength(1);
    expect(check([plan()], [given('betafen', '2026-05-04T19:59')])).toEqual([]);
  });

  it('clashes as a corticosteroid', () => {
    expect(check([plan()], [given('gammasone', '2026-05-05T10:00')])).toMatchObject([
      { expected: 'no NSAID together with a corticosteroid' },
    ]);
  });

  it('is the start of the same medicine at home', () => {
    expect(check([plan()], [given('alphafen', '2026-05-05T08:00', 2)])).toEqual([]);
  });

  it('is asked about where the plan counts from an earlier dose', () => {
    expect(check([plan()], [given('Alphafen', '2026-05-05T14:30', 0)])).toMatchObject([
      {
        weight: 'warn',
        field: 'drug',
        found: 'alphafen 5.5 h after Alphafen in the clinic',
        expected: 'at least the interval of 12 h, and "last given" at the time of that dose',
      },
    ]);
  });

  it('counts towards the most of a day', () => {
    expect(check([plan()], [given('alphafen', '2026-05-05T08:00', 4)])).toMatchObject([
      {
        weight: 'warn',
        field: 'give',
        found: '6 mg/kg of alphafen within 24 h, the doses in the clinic included',
      },
    ]);
    // The dose at home comes a whole day later.
    const next = plan({ hours: 24, perKilogramDay: 2, doses: [zoned('2026-05-06T08:00')] });
    expect(check([next], [given('alphafen', '2026-05-05T08:00', 4)])).toEqual([]);
  });
});

it('in 100 000 random plans stops exactly above the most of a day, and warns exactly out of range', () => {
  const { next: random } = randomFrom(20_260_505);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  const doses = [zoned('2026-05-05T20:00')];
  const counts = { stop: 0, warn: 0, none: 0 };
  for (let run = 0; run < 100_000; run++) {
    // In whole hundredths of mg/kg, so that the expectation is free of rounding.
    const hundredths = 1 + Math.floor(random() * 600);
    const hours = pick([4, 6, 8, 12, 24, 48]);
    const inDay = Math.min(Math.ceil(24 / hours), 1 + Math.floor(random() * 9));
    const kilogram = pick([0.9, 2.1, 4.6, 12.5, 31, 64]);
    const milligram = (hundredths / 100) * kilogram;
    const perKilogram = milligram / kilogram;
    const findings = checkDoses(
      FORMULARY,
      'dog',
      [
        {
          drug: 'alphafen',
          purpose: 'pain and swelling',
          route: 'by mouth',
          food: 'with food',
          give: { value: 1, unit: 'tablet', written: '1 tablet' },
          perKilogram,
          perKilogramDay: perKilogram * inDay,
          hours,
          doses,
          lastGiven: null,
          asNeededUntil: null,
        },
      ],
      [],
    );
    const over = hundredths * inDay > 400;
    const odd = (hundredths < 100 || hundredths > 200 ? 1 : 0) + (hours < 12 || hours > 24 ? 1 : 0);
    const expected = over ? ['stop'] : Array.from({ length: odd }, () => 'warn');
    const found = findings.map(({ weight }) => weight);
    if (found.join() !== expected.join()) {
      expect.fail(`${hundredths / 100} mg/kg every ${hours} h: ${JSON.stringify(findings)}`);
    }
    counts[over ? 'stop' : odd > 0 ? 'warn' : 'none']++;
  }
  for (const count of Object.values(counts)) expect(count).toBeGreaterThan(1000);
});

describe('the doses of 100 000 random plans', () => {
  it('at an exact interval lie on the line of elapsed time, in and between zones', () => {
    const { next: random } = randomFrom(7);
    const zones = ['America/Chicago', 'Europe/Madrid', 'Australia/Lord_Howe', 'Asia/Kathmandu'];
    const starts = Array.from({ length: 500 }, (_, day) =>
      Temporal.PlainDateTime.from('2025-01-01T00:00').add({ hours: day * 25 }),
    );
    for (let run = 0; run < 100_000; run++) {
      const hours = 1 + Math.floor(random() * 48);
      const rhythm: Rhythm = { kind: 'every', hours };
      const lastGiven = starts[Math.floor(random() * starts.length)] as Temporal.PlainDateTime;
      const clinicZone = zones[Math.floor(random() * zones.length)] as string;
      const timeZone = zones[Math.floor(random() * zones.length)] as string;
      const [dose] = homeDoses({ rhythm, doses: 1, lastGiven, first: null, timeZone, clinicZone });
      const elapsed =
        (dose?.epochMilliseconds ?? 0) - lastGiven.toZonedDateTime(clinicZone).epochMilliseconds;
      if (elapsed !== hours * 3_600_000 || dose?.timeZoneId !== timeZone) {
        expect.fail(`${lastGiven} ${clinicZone} to ${timeZone}, every ${hours} h: ${dose}`);
      }
    }
  }, 60_000);
});

describe('two doses in the clinic that the plan does not count', () => {
  it('are told by the later one, from which the plan has to count', () => {
    const said = checkDoses(
      FORMULARY,
      'dog',
      [plan()],
      [given('alphafen', '2026-05-05T09:00'), given('alphafen', '2026-05-05T12:00')],
    ).filter(({ kind }) => kind === 'a dose in the clinic that the plan does not count');
    expect(said).toMatchObject([{ found: 'alphafen 8 h after alphafen in the clinic' }]);
  });
});

it('counts the hours between clocks of two zones as they pass', () => {
  const madrid = Temporal.ZonedDateTime.from('2026-03-29T04:00[Europe/Madrid]');
  expect(hoursApart(madrid, madrid.withTimeZone('Asia/Tokyo').add({ hours: 5 }))).toBe(5);
  const before = Temporal.ZonedDateTime.from('2026-03-28T04:00[Europe/Madrid]');
  // The night is an hour shorter, and the same time of the next day is still a day later.
  expect(hoursApart(madrid, before)).toBe(24);
  expect(hoursApart(madrid, before.withTimeZone('Asia/Tokyo'))).toBe(23);
});

describe('a dose in a message', () => {
  it('is never told as nothing', () => {
    expect(shown(0.00005)).toBe('0.00005');
    expect(shown(0.0123456)).toBe('0.012');
    expect(shown(12.34567)).toBe('12.346');
  });
});

describe('an ointment, which has no mass', () => {
  const strip = (change: Partial<PlannedMedicine> = {}) =>
    plan({
      route: 'in the eye',
      food: 'either',
      ...change,
      perKilogram: null,
      perKilogramDay: null,
    });

  it('is asked about, as nobody can hold it against a dose', () => {
    expect(checkDoses(FORMULARY, 'dog', [strip()], [])).toMatchObject([
      {
        kind: 'a medicine that nothing was checked against',
        weight: 'warn',
        field: 'give',
        found: 'alphafen for a dog, its amount unchecked',
      },
    ]);
  });

  it('still has its interval and its ban checked', () => {
    expect(checkDoses(FORMULARY, 'dog', [strip({ hours: 4 })], [])).toMatchObject([
      { field: 'give' },
      { kind: 'an interval out of its range', field: 'rhythm' },
    ]);
    expect(checkDoses(FORMULARY, 'cat', [strip()], [])).toMatchObject([
      { kind: 'a drug that the species never gets', weight: 'stop' },
    ]);
  });

  it('adds nothing to what was given in the clinic', () => {
    const given = [
      {
        drug: 'alphafen',
        route: 'subcutaneous' as const,
        perKilogram: 9,
        at: zoned('2026-03-09T08:40'),
      },
    ];
    const kinds = checkDoses(FORMULARY, 'dog', [strip()], given).map(({ kind }) => kind);
    expect(kinds).not.toContain('more than the most in a day');
  });
});

describe('what a medicine is for', () => {
  const told = (change: Partial<PlannedMedicine>) =>
    checkDoses(FORMULARY, 'dog', [plan(change)], []).filter(({ field }) => field === 'for');

  it('asks where the owner would not be told when to stop an NSAID', () => {
    expect(told({ purpose: 'pain' })).toMatchObject([
      {
        kind: 'a purpose that hides what to watch for',
        weight: 'warn',
        field: 'for',
        found: expect.stringContaining('alphafen for "pain"'),
        expected: '"for: pain and swelling", which says it',
      },
    ]);
  });

  it('asks for the words on a rabbit, which cannot vomit, and for none of them on another', () => {
    const rabbit = (purpose: string) =>
      checkDoses(FORMULARY, 'rabbit', [plan({ purpose })], []).filter(
        ({ field }) => field === 'for',
      );
    expect(rabbit('pain and swelling, rabbit')).toEqual([]);
    expect(rabbit('pain and swelling')).toMatchObject([
      { expected: '"for: pain and swelling, rabbit", which says it' },
    ]);
    expect(told({ purpose: 'pain and swelling, rabbit' })).toHaveLength(1);
  });

  it('asks where the owner of an antibiotic would not be told to give all of it', () => {
    const course = { drug: 'deltacillin', purpose: 'pain and swelling' };
    expect(told(course)).toMatchObject([{ expected: '"for: infection", which says it' }]);
    expect(told({ ...course, purpose: 'infection' })).toEqual([]);
  });

  it('asks for a medicine that reaches the whole body from the cheek, and not for a drop in the eye', () => {
    const methadone = { drug: 'methadone', purpose: 'pain and swelling' };
    expect(told({ ...methadone, route: 'inside the cheek' })).toHaveLength(1);
    expect(told({ ...methadone, route: 'in the eye' })).toEqual([]);
  });

  it('asks where the owner would not be told that an opioid makes sleepy, by its name alone', () => {
    const methadone = { drug: 'methadone', purpose: 'pain and swelling' };
    expect(told(methadone)).toMatchObject([{ expected: '"for: pain", which says it' }]);
    expect(told({ ...methadone, purpose: 'pain' })).toEqual([]);
    expect(told({ ...methadone, purpose: 'calm rest' })).toEqual([]);
  });

  it.each([
    { purpose: 'pain and swelling' },
    // Drops do not upset the stomach.
    { purpose: 'eye surface', route: 'in the eye' },
    { drug: 'gammasone', purpose: 'itching' },
    { drug: 'unheard-of', purpose: 'pain' },
  ])('is not asked about for %j', (change) => {
    expect(told(change)).toEqual([]);
  });
});
