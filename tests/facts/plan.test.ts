import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { buildFacts } from '../../src/facts/build-facts.js';
import { readVitals } from '../../src/record/vitals-file.js';
import { accepted, type Change, caseWith, clinicWith, problemsOf } from '../record/sample.js';

const built = (...changes: Change[]) =>
  accepted(
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
    ),
  );
const home = (lines: string): Change => ['  rest: 2 weeks\n', `  rest: 2 weeks\n${lines}`];
const RABBIT: Change = ['species: dog', 'species: rabbit'];

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
    expect(built(['  collar: 12 days\n', '']).plan.bathFrom.value).toBe('2026-03-21');
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
    const food = 'from: 20:00, how much: a normal meal';
    expect(warned(RABBIT, home(`  food: { ${food} }\n`))).toMatchObject([
      { field: 'home.food.from', accepted: null },
    ]);
    expect(
      warned(RABBIT, home(`  food: { ${food}, accepted because: the stomach was sewn }\n`)),
    ).toMatchObject([{ accepted: 'the stomach was sewn' }]);
    expect(warned(home(`  food: { ${food} }\n`))).toEqual([]);
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
