import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { buildFacts } from '../../src/facts/build-facts.js';
import { readVitals } from '../../src/record/vitals-file.js';
import {
  accepted,
  type Change,
  caseWith,
  clinicWith,
  FORMULARY,
  problemsOf,
} from '../record/sample.js';

const built = (...changes: Change[]) =>
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
      FORMULARY,
    ),
  );
const home = (lines: string): Change => ['  rest: 2 weeks\n', `  rest: 2 weeks\n${lines}`];
const RABBIT: Change = ['species: dog', 'species: rabbit'];
const OPEN: readonly Change[] = [
  ['healing: edge to edge', 'healing: left open'],
  ['edge gap: 0 mm', 'edge gap: 18 mm'],
];

describe('the facts of the plan', () => {
  it('state no meal and no full activity that the record does not state', () => {
    const { plan } = built();
    expect(plan.food).toEqual({ value: null, why: expect.stringMatching(/does not say/) });
    expect(plan.fullFrom).toEqual({ value: null, why: expect.stringMatching(/does not say/) });
  });

  it('take the meal from the record, at once where it may be given before the patient is home', () => {
    const fed = (from: string) =>
      built(home(`  food: { from: ${from}, how much: half a meal }\n`)).plan.food;
    expect(fed('18:30')).toMatchObject({
      value: { from: '2026-03-09T18:30', atOnce: false, amount: 'half a meal', kind: 'usual food' },
      from: [expect.stringMatching(/^case\.yaml:\d+ home\.food$/)],
    });
    expect(fed('15:00').value?.atOnce).toBe(true);
  });

  it('count full activity from surgery', () => {
    // 28 days after March 9.
    expect(built(home('  full activity after: 4 weeks\n')).plan.fullFrom.value).toBe('2026-04-06');
  });

  it('date the first bath by stitches and collar', () => {
    // Stitches out on March 20, as the clinic is closed on the 19th; collar to the 21st.
    expect(built().plan.bathFrom.value).toBe('2026-03-22');
    // Without a collar they may still be in on the last day that is offered, the 23rd.
    expect(built(['  collar: 12 days\n', '']).plan.bathFrom.value).toBe('2026-03-24');
    const set: Change = ['  tension: none\n', '  tension: none\n  remove on: 2026-03-20\n'];
    expect(built(['  collar: 12 days\n', ''], set).plan.bathFrom.value).toBe('2026-03-21');
  });

  it('let a dog swim no sooner than it may run, and say so where a bath comes first', () => {
    const swims = (full: string | null, ...changes: Change[]) =>
      built(full === null ? home('') : home(`  full activity after: ${full}\n`), ...changes).plan
        .swimFrom?.value;
    // Bath from March 22; rest to the 23rd.
    expect(swims('15 days')).toBe('2026-03-24');
    expect(swims('6 weeks')).toBe('2026-04-20');
    // Nobody knows when it may run.
    expect(swims(null)).toBeNull();
    expect(swims('6 weeks', RABBIT)).toBeUndefined();
    expect(swims('6 weeks', ...OPEN)).toBeUndefined();
    const short: Change[] = [
      ['  rest: 2 weeks', '  rest: 10 days'],
      ['  rechecks:', '  full activity after: 12 days\n  rechecks:'],
    ];
    expect(built(...short).plan.swimFrom).toBeUndefined();
  });

  it('know of no bath while a wound stays open', () => {
    const open = built(
      ['healing: edge to edge', 'healing: left open'],
      ['edge gap: 0 mm', 'edge gap: 18 mm'],
    );
    expect(open.plan.bathFrom.value).toBeNull();
    expect(open.plan.signs.value).toContain('open');
  });

  it('see an opioid that was given in the clinic', () => {
    expect(built().plan.opioid.value).toBe(true);
    expect(
      built(['{ drug: methadone, dose: 2.5 mg', '{ drug: acepromazine, dose: 0.2 mg']).plan.opioid
        .value,
    ).toBe(false);
  });

  // Methadone of 09:00 or so; home a day and some hours later.
  it('see none that was given more than a day before going home', () => {
    const dose: Change = ['last given: 08:40', 'last given: 2026-03-10 06:40'];
    const home = (at: string): Change => ['discharge: 15:00', `discharge: 2026-03-10 ${at}`];
    expect(built(dose, home('15:00')).plan.opioid.value).toBe(false);
    expect(built(dose, home('07:00')).plan.opioid.value).toBe(true);
  });
});

describe('a veterinarian is asked about', () => {
  const warned = (...changes: Change[]) => built(...changes).warnings;

  it('nothing in a sound record', () => {
    expect(warned()).toEqual([]);
  });

  it('a collar that comes off before the stitches', () => {
    expect(warned(['collar: 12 days', 'collar: 9 days'])).toMatchObject([
      { field: 'home.collar', found: 'a collar until 2026-03-18', accepted: null },
    ]);
  });

  it('rest that ends before bone or ligament bear a run', () => {
    const knee: Change = ['procedure: skin lump removal', 'procedure: knee ligament repair'];
    expect(warned(knee)).toMatchObject([
      { field: 'home.rest', expected: expect.stringContaining('bears a run, on day 42') },
    ]);
    expect(warned(knee, ['rest: 2 weeks', 'rest: 6 weeks'])).toEqual([]);
  });

  it('rest that ends before the edges hold, later where they heal slowly', () => {
    expect(warned(['rest: 2 weeks', 'rest: 9 days'])).toMatchObject([
      { field: 'home.rest', expected: expect.stringContaining('day 10') },
    ]);
    expect(warned(['rest: 2 weeks', 'rest: 10 days'])).toEqual([]);
    expect(
      warned(
        ['rest: 2 weeks', 'rest: 10 days'],
        ['tension: none', 'tension: high'],
        ['collar: 12 days', 'collar: 3 weeks'],
      ),
    ).toMatchObject([{ field: 'home.rest', expected: expect.stringContaining('day 14, later') }]);
  });

  it('a rabbit that is to fast, with the answer that the record gives', () => {
    const LIGHT: Change = ['weight: 12.5 kg', 'weight: 8 kg'];
    const WATCHED: Change = ['for: pain and swelling', 'for: pain and swelling, rabbit'];
    const food = 'from: 20:00, how much: a normal meal';
    expect(warned(RABBIT, LIGHT, WATCHED, home(`  food: { ${food} }\n`))).toMatchObject([
      { field: 'home.food.from', accepted: null },
    ]);
    expect(
      warned(
        RABBIT,
        LIGHT,
        WATCHED,
        home(`  food: { ${food}, accepted because: { T346: the stomach was sewn } }\n`),
      ),
    ).toMatchObject([{ accepted: 'the stomach was sewn' }]);
    expect(warned(home(`  food: { ${food} }\n`))).toEqual([]);
  });
});

describe('an open wound', () => {
  const DAY = '2026-04-09';
  const warned = (...changes: Change[]) =>
    built(...changes).warnings.filter(
      ({ kind }) => kind === 'an open wound that is left alone too soon',
    );
  const until: readonly Change[] = [
    ['collar: 12 days', 'collar: 31 days'],
    ['rest: 2 weeks', 'rest: 31 days'],
  ];

  it('is asked about where collar, rest or the last visit ends before it can have closed', () => {
    // 18 mm at 0.8 mm a day are 22.5 days, counted from day 8, when such a wound begins to shrink: day 31 from March 9.
    const expected = expect.stringContaining(`at least until ${DAY}`);
    expect(warned(...OPEN)).toMatchObject([
      { field: 'home.collar', found: 'a collar until 2026-03-21', expected, accepted: null },
      { field: 'home.rest', found: 'rest until 2026-03-23', expected, accepted: null },
      { field: 'home.rechecks', found: 'a last look on 2026-03-12', expected, accepted: null },
    ]);
  });

  it('is looked at by visits for it, not by a talk', () => {
    const visit = (what: string): Change => [
      '    - { what: wound check, after: 3 days }',
      `    - { what: ${what}, after: 32 days }`,
    ];
    expect(warned(...OPEN, ...until, visit('talk'))).toMatchObject([
      { field: 'home.rechecks', found: 'no visit to look at the wound' },
    ]);
    expect(warned(...OPEN, ...until, visit('bandage change'))).toEqual([]);
  });

  it('has its answer under home', () => {
    const because: Change = [
      'collar: 31 days',
      'collar: 31 days\n  accepted because: { T348: the owner is a nurse and dresses it }',
    ];
    expect(warned(...OPEN, ...until, because)).toMatchObject([
      { field: 'home.rechecks', accepted: 'the owner is a nurse and dresses it' },
    ]);
  });

  it('is not what joined edges are', () => {
    expect(warned()).toEqual([]);
  });
});

describe('a record is refused', () => {
  it.each([
    ['  full activity after: 10 days\n', 'home.full activity after', 'not less than the rest'],
    ['  full activity after: 10\n', 'home.full activity after', 'days, weeks'],
    ['  food: { from: 09:00, how much: half a meal }\n', 'home.food.from', 'end of anesthesia'],
    ['  food: { from: 18:00, how much: some }\n', 'home.food.how much', 'a few bites'],
    ['  food: { from: tonight, how much: half a meal }\n', 'home.food.from', 'a time such as'],
    ['  food: { from: 18:00, how much: half a meal, what: fish }\n', 'home.food.what', 'soft food'],
    ['  food: { how much: half a meal }\n', 'home.food.from', 'may eat'],
  ])('with its place for %j', (lines, field, expected) => {
    const [problem, ...more] = problemsOf(caseWith(home(lines)));
    expect(more).toEqual([]);
    expect(problem).toMatchObject({ field, line: expect.any(Number) });
    expect(problem?.expected).toContain(expected);
  });
});
