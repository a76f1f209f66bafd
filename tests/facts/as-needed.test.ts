import { describe, expect, it } from 'vitest';
import { accepted, type Change, problemsOf } from '../record/sample.js';
import { builtFrom } from '../words/owner/sheet-of.js';

/** Lines of a medicine as needed for Thimble, who weighs 12.5 kg and goes home at 15:00 on 9 March. */
const LINES: Readonly<Record<string, string>> = {
  drug: 'gabapentin',
  for: 'pain and swelling',
  if: 'she cries or will not settle',
  strength: '100 mg/capsule',
  give: '1 capsule',
  route: 'by mouth',
  food: 'either',
  'at least apart': '8 h',
  'up to': '{ a day: 2 }',
  until: '2026-03-11',
};
const withNeeded = (more: Readonly<Record<string, string>> = {}): Change => [
  '  collar: 12 days\n',
  `  as needed:\n${Object.entries({ ...LINES, ...more })
    .map(([key, value], i) => `    ${i === 0 ? '-' : ' '} ${key}: ${value}\n`)
    .join('')}  collar: 12 days\n`,
];
const built = (more?: Readonly<Record<string, string>>, ...changes: Change[]) =>
  builtFrom([], withNeeded(more), ...changes);
const needed = (more?: Readonly<Record<string, string>>, ...changes: Change[]) => {
  const [only] = accepted(built(more, ...changes)).home.asNeeded;
  if (!only) throw new Error('one medicine as needed was written');
  return only;
};
const said = (more: Readonly<Record<string, string>>) =>
  accepted(built(more)).warnings.filter(({ field }) => field?.startsWith('home.as needed'));

describe('a medicine as needed', () => {
  it('has its limits, amounts and needs computed', () => {
    const facts = needed({ 'last given': '10:00', dispensed: '6 capsules' });
    // 10:00 and 8 hours; then 18:00, 2:00, 18:00 (a day after the first), 2:00 and 18:00 of the 11th.
    expect(facts).toMatchObject({
      notBefore: { value: '2026-03-09T18:00-05:00' },
      until: { value: '2026-03-11' },
      apart: { value: 8 },
      mostInDay: { value: 2 },
      mostInAll: { value: null },
      mostDoses: { value: 5 },
      needed: { value: 5 },
      enoughFor: { value: 6 },
      // 100 mg over 12.5 kg, twice.
      milligram: { value: 100 },
      perKilogram: { value: 8 },
      perKilogramDay: { value: 16 },
    });
    expect(facts.notBefore.from).toContainEqual(
      expect.stringMatching(/^case\.yaml:\d+ home\.as needed\[0\]\.last given$/),
    );
  });

  it('may be given from the way home on where the clinic gave none, or long enough ago', () => {
    expect(needed().notBefore.value).toBe('2026-03-09T15:00-05:00');
    // 7 + 8 = 15.
    expect(needed({ 'last given': '07:00' }).notBefore.value).toBe('2026-03-09T15:00-05:00');
    expect(needed({ 'last given': '07:01' }).notBefore.value).toBe('2026-03-09T15:01-05:00');
  });

  it('is told by the clock at home', () => {
    // 15:00 in Chicago is 21:00 in Madrid, as only the former has put its clocks forward.
    const there: Change = ['home:\n', 'home:\n  at home in: Europe/Madrid\n'];
    expect(needed({}, there).notBefore.value).toBe('2026-03-09T21:00+01:00');
  });

  it('waits until the moment that the record sets', () => {
    const { notBefore } = needed({ first: '2026-03-10 08:00', 'last given': '10:00' });
    expect(notBefore).toMatchObject({ value: '2026-03-10T08:00-05:00', how: 'recorded' });
  });

  it('begins on a step of the clock where the clinic rounds up', () => {
    const rounds: Change = ['paper: A4\n', 'paper: A4\nhome doses: { rounded up to: 1 h }\n'];
    const [only] = accepted(builtFrom([rounds], withNeeded({ 'last given': '10:25' }))).home
      .asNeeded;
    expect(only?.notBefore.value).toBe('2026-03-09T19:00-05:00');
  });

  it('has the room of its hours for a most of the day where none is told', () => {
    expect(needed({ 'up to': '{ in all: 3 }' })).toMatchObject({
      // At 0, 8 and 16 hours.
      mostInDay: { value: 3, how: expect.stringContaining('8 h between two of them') },
      mostInAll: { value: 3, how: 'recorded' },
      mostDoses: { value: 3 },
      perKilogramDay: { value: 24 },
    });
    expect(needed({ 'up to': '{ in all: 1 }' }).perKilogramDay.value).toBe(8);
  });

  it('needs not be handed out for the most that may be given, but for one dose', () => {
    expect(needed({ dispensed: '2 capsules' }).enoughFor.value).toBe(2);
    expect(problemsOf(built({ dispensed: '1/2 capsule' }))).toMatchObject([
      { kind: 'too little dispensed', expected: 'at least 1 capsule for 1 dose of 1 capsule' },
    ]);
    expect(needed()).toMatchObject({ dispensed: { value: null }, enoughFor: { value: null } });
  });

  it('counts the drops of a bottle, twenty to the mL, and no tube', () => {
    const eye = { drug: 'tears', strength: '5 mg/mL', give: '1 drop', route: 'in each eye' };
    // 0.5 mL are ten drops, two a dose.
    expect(needed({ ...eye, dispensed: '0.5 mL' }).enoughFor.value).toBe(5);
    const tube = { ...eye, strength: '3 mg/g', give: '0.5 cm', route: 'in the left eye' };
    expect(needed({ ...tube, dispensed: '5 g' })).toMatchObject({
      enoughFor: { value: null },
      perKilogramDay: { value: null },
    });
  });
});

describe('a medicine as needed is refused', () => {
  it.each<[string, Readonly<Record<string, string>>, string, string]>([
    [
      'whose last day is over first',
      { until: '2026-03-08' },
      'a medicine as needed that can never be given',
      'until',
    ],
    [
      'whose first moment lies behind the last day',
      { first: '2026-03-12 08:00' },
      'a medicine as needed that can never be given',
      'until',
    ],
    [
      'with more a day than its hours leave room for',
      { 'up to': '{ a day: 4 }' },
      'limits of a medicine that do not fit together',
      'up to.a day',
    ],
    [
      'with more in all than its days leave room for',
      { 'up to': '{ a day: 2, in all: 7 }' },
      'limits of a medicine that do not fit together',
      'up to.in all',
    ],
    [
      'with more a day than in all',
      { 'up to': '{ a day: 2, in all: 1 }' },
      'limits of a medicine that do not fit together',
      'up to.a day',
    ],
    [
      'that the clinic gave after the way home',
      { 'last given': '16:00' },
      'a last dose after discharge',
      'last given',
    ],
    [
      'whose first moment is too near to the last dose',
      { 'last given': '10:00', first: '17:00' },
      'a first home dose too soon',
      'first',
    ],
    [
      'whose first moment is before the way home',
      { first: '14:00' },
      'a home dose before discharge',
      'first',
    ],
    [
      'that cannot be measured',
      { strength: '100 mg/mL', give: '1.05 mL' },
      'a dose that cannot be measured',
      'give',
    ],
  ])('%s', (_, more, kind, field) => {
    expect(problemsOf(built(more))).toMatchObject([
      { kind, field: `home.as needed[0].${field}`, line: expect.any(Number) },
    ]);
  });
});

it('is refused in an hour that the clock skips', () => {
  expect(problemsOf(built({ first: '2026-03-08 02:30' }))).toContainEqual(
    expect.objectContaining({
      kind: 'a time that a clock change skips',
      field: 'home.as needed[0].first',
    }),
  );
});

describe('a medicine as needed is asked about', () => {
  it('where nothing was checked, and answers in its own lines', () => {
    expect(said({})).toMatchObject([
      { kind: 'a medicine that nothing was checked against', accepted: null },
    ]);
    expect(said({ 'accepted because': '{ T336: "looked up by hand" }' })).toMatchObject([
      { accepted: 'looked up by hand' },
    ]);
  });

  it('where it goes on for months, or much more is handed out than may be given', () => {
    const kinds = (more: Readonly<Record<string, string>>) => said(more).map(({ kind }) => kind);
    expect(kinds({ until: '2026-08-11' })).toContain('a course that lasts for long');
    // At 15:00 and 23:00 of three days, six: more than 30 capsules.
    expect(kinds({ dispensed: '31 capsules' })).toContain('much more handed out than is given');
    expect(kinds({ dispensed: '30 capsules' })).not.toContain('much more handed out than is given');
  });

  it('where it is an NSAID beside one with hours', () => {
    const nsaid = { drug: 'meloxicam', food: 'with food' };
    expect(said(nsaid)).toContainEqual(
      expect.objectContaining({
        kind: 'drugs that do not go together',
        found: 'meloxicam and carprofen within 24 h',
      }),
    );
  });

  it('where its sign speaks of the other side', () => {
    const site: Change = ['  begin: 09:30\n', '  site: left side of the chest\n  begin: 09:30\n'];
    const { warnings } = accepted(built({ if: 'she licks her right side' }, site));
    expect(warnings).toContainEqual(
      expect.objectContaining({ kind: 'two sides of the body', field: 'home.as needed[0].if' }),
    );
  });
});

it('counts among what an owner watches for: an opioid as needed makes slow of breath too', () => {
  const { plan } = accepted(built({ drug: 'tramadol' }));
  expect(plan.signs.value).toEqual(expect.arrayContaining(['opioid', 'as needed', 'NSAID']));
  expect(accepted(builtFrom([])).plan.signs.value).not.toContain('as needed');
});
