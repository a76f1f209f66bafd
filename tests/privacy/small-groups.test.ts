import { execFileSync } from 'node:child_process';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AGE_BANDS } from '../../src/privacy/age-band.js';
import { smallGroups, type Told, type Traits } from '../../src/privacy/small-groups.js';
import { decideGroups, type Groupable, groupsReport } from '../../src/publish/groups.js';
import { readClinic } from '../../src/record/read-case.js';
import { hasProgram } from '../publish/programs.js';
import { CLINIC, clinicWith, KEYS, problemsOf } from '../record/sample.js';

const WHIPPET: Traits = {
  species: 'dog',
  breed: 'whippet',
  ageBand: '4 to 7',
  sex: 'female neutered',
  procedure: 'spay',
  region: 'North America',
};
const group = (least: number, ...cases: Partial<Traits>[]) => {
  const all = cases.map((one, i) => [i, { ...WHIPPET, ...one }] as const);
  return [...smallGroups(new Map(all), least).values()];
};
const many = (count: number, one: Partial<Traits> = {}) => Array.from({ length: count }, () => one);

/** Everything that is told of one case, as one text. */
const tuple = (traits: Traits, told: Told) =>
  JSON.stringify([
    traits.species,
    told.breed,
    told.ageBand,
    told.sex ? traits.sex : null,
    traits.procedure,
    traits.region,
  ]);

describe('groups of cases', () => {
  it('that are large enough tell breed, age and sex', () => {
    for (const one of group(5, ...many(5))) {
      expect(one).toEqual({ told: { breed: 'whippet', ageBand: '4 to 7', sex: true }, group: 5 });
    }
  });

  it('never tell a breed that fewer than five share, whatever the clinic asks for', () => {
    const cases = group(1, ...many(4), ...many(5, { breed: 'Beagle' }), { breed: ' beagle' });
    expect(cases.map(({ told }) => told?.breed)).toEqual([
      ...many(4).map(() => null),
      ...many(5).map(() => 'Beagle'),
      'Beagle',
    ]);
  });

  it.each<[what: string, cases: Partial<Traits>[], told: Told]>([
    [
      'leave the breed out first',
      [...many(3, { breed: 'beagle' }), ...many(2)],
      { breed: null, ageBand: '4 to 7', sex: true },
    ],
    [
      'then widen the age',
      [...many(3), ...many(2, { ageBand: '12 or more' })],
      { breed: null, ageBand: '4 or more', sex: true },
    ],
    [
      'then leave the age out',
      [...many(3), ...many(2, { ageBand: 'under 1' })],
      { breed: null, ageBand: null, sex: true },
    ],
    [
      'then leave the sex out',
      [...many(3), ...many(2, { sex: 'male' })],
      { breed: null, ageBand: null, sex: false },
    ],
  ])('that are too small %s', (_, cases, told) => {
    for (const one of group(5, ...cases)) expect(one).toEqual({ told, group: 5 });
  });

  it('that stay too small are withheld', () => {
    const cases = group(5, ...many(5), ...many(4, { procedure: 'castration' }));
    expect(cases.map(({ told }) => told !== null)).toEqual([
      ...many(5).map(() => true),
      ...many(4).map(() => false),
    ]);
    expect(cases.at(-1)).toEqual({ told: null, group: 0 });
  });

  const traits = fc.record({
    species: fc.constantFrom('dog', 'cat'),
    breed: fc.constantFrom('whippet', 'beagle', 'mixed breed'),
    ageBand: fc.constantFrom(...AGE_BANDS),
    sex: fc.constantFrom('female', 'male neutered'),
    procedure: fc.constantFrom('spay', 'castration'),
    region: fc.constantFrom('here', null),
  });

  it('are k-anonymous in what is told (Sweeney 2002), in whatever order the cases come', () => {
    fc.assert(
      fc.property(
        fc.array(traits, { maxLength: 60 }),
        fc.integer({ min: 1, max: 8 }),
        (all, least) => {
          const grouped = group(least, ...all);
          const tuples = grouped.map(({ told }, i) => told && tuple(all[i] as Traits, told));
          for (const [i, { told, group: size }] of grouped.entries()) {
            if (told === null) continue;
            expect(tuples.filter((one) => one === tuples[i])).toHaveLength(size);
            expect(size).toBeGreaterThanOrEqual(least);
          }
          const backwards = group(least, ...all.toReversed()).toReversed();
          expect(backwards).toEqual(grouped);
        },
      ),
    );
  });

  it.skipIf(!hasProgram('python3'))('have the smallest size that Python counts', () => {
    const all = [...many(6), ...many(3, { ageBand: '8 to 11' }), ...many(3, { sex: 'male' })].map(
      (one) => ({ ...WHIPPET, ...one }),
    );
    const grouped = group(3, ...all);
    const tuples = grouped.flatMap(({ told }, i) => (told ? [tuple(all[i] as Traits, told)] : []));
    const smallest = execFileSync(
      'python3',
      [
        '-c',
        'import json,sys,collections as c; print(min(c.Counter(json.load(sys.stdin)).values()))',
      ],
      { input: JSON.stringify(tuples) },
    );
    const report = groupsReport(
      clinicWith(),
      new Map(grouped.map((one, i) => [`${i}`, one])),
      all.map((traits, i) => ({ name: `${i}`, traits })),
    );
    expect(report.smallest).toBe(Number(smallest));
    // The same count once more, by what the report calls each combination.
    expect(report.alike[0]?.group).toBe(Number(smallest));
    expect(report.alike.reduce((sum, { group }) => sum + group, 0)).toBe(tuples.length);
  });
});

describe('the decision over a collection', () => {
  const problem = (found: string) =>
    ({
      kind: 'a passage that may lead to somebody',
      file: 'case.yaml',
      found,
      expected: '',
      mend: '',
    }) as const;
  const nothing = { breed: [], age: [], sex: [] };
  const published = (count: number, more: Partial<Groupable> = {}): Groupable[] =>
    Array.from({ length: count }, (_, i) => ({
      name: `${more.name ?? 'case'}-${i}`,
      traits: WHIPPET,
      cleared: true,
      telling: nothing,
      ...more,
      ...(more.name ? { name: `${more.name}-${i}` } : {}),
    }));

  it('counts no case that is not public: a withdrawal makes a group smaller for those that stay', () => {
    const stays = published(4);
    const gone = published(1, { name: 'gone', cleared: null, telling: null });
    expect([
      ...decideGroups([...stays, ...published(1, { name: 'fifth' })], 5).of.values(),
    ]).toEqual(
      many(5).map(() => ({ told: { breed: 'whippet', ageBand: '4 to 7', sex: true }, group: 5 })),
    );
    const { of } = decideGroups([...stays, ...gone], 5);
    expect([...of]).toEqual(stays.map(({ name }) => [name, { told: null, group: 0 }]));
  });

  it('takes out a case whose words tell what its group withholds, and then counts it no more', () => {
    const telling = { ...nothing, breed: [problem('"Whippet"')], age: [problem('"old"')] };
    const others = published(5, { traits: { ...WHIPPET, breed: 'beagle' } });
    const titled = { name: 'titled', traits: WHIPPET, cleared: true, telling };
    const { of, undecided } = decideGroups([...others.slice(0, 4), titled], 5);
    expect(undecided).toEqual([{ name: 'titled', problems: telling.breed }]);
    // Its four fellows stand apart without it.
    expect([...of.values()].map(({ told }) => told)).toEqual([null, null, null, null]);
    // Where the breed is told anyway, its title may say it.
    expect(decideGroups(published(5, { telling }), 5).undecided).toEqual([]);
    expect(decideGroups(published(4, { telling }), 5).undecided).toEqual([]);
  });

  it('asks for the words of age and sex once these are withheld', () => {
    const telling = { breed: [], age: [problem('"old"')], sex: [problem('"She"')] };
    const founds = (cases: Groupable[]) =>
      decideGroups(cases, 5).undecided.map(({ problems }) => problems.map(({ found }) => found));
    const old = { traits: { ...WHIPPET, ageBand: '12 or more' as const } };
    const male = { traits: { ...WHIPPET, sex: 'male' } };
    expect(founds([...published(4), ...published(1, { ...old, name: 'old', telling })])).toEqual([
      ['"old"'],
    ]);
    expect(founds([...published(4), ...published(1, { ...male, name: 'male', telling })])).toEqual([
      ['"old"', '"She"'],
    ]);
  });
});

describe('the clinic’s choice of group', () => {
  it('is five where it says nothing', () => {
    expect(clinicWith()['small groups']).toEqual({ 'at least': 5 });
  });

  it('may be smaller only with a reason, and never none', () => {
    const choose = (text: string) =>
      readClinic(`${CLINIC}small groups: ${text}\n`, 'clinic.yaml', KEYS);
    expect(choose('{ at least: 2, because: a rare species }').ok).toBe(true);
    expect(choose('{ at least: 9 }').ok).toBe(true);
    expect(problemsOf(choose('{ at least: 4 }'))[0]).toMatchObject({
      field: 'small groups.at least',
      found: 'the bare number 4',
      expected: expect.stringContaining('fewer only with a reason'),
    });
    expect(problemsOf(choose('{ at least: 0, because: none }'))).toHaveLength(1);
  });

  it('is told with the cases of which less is told', () => {
    const report = groupsReport(
      clinicWith(),
      new Map([
        ['a', { told: { breed: null, ageBand: '4 to 7', sex: true }, group: 7 }],
        ['b', { told: { breed: null, ageBand: '4 or more', sex: true }, group: 6 }],
        ['c', { told: { breed: null, ageBand: null, sex: true }, group: 5 }],
        ['d', { told: { breed: null, ageBand: null, sex: false }, group: 5 }],
        ['e', { told: null, group: 0 }],
      ] as const),
      [{ name: 'b', traits: WHIPPET }],
    );
    expect(report).toMatchObject({ least: 5, because: null, smallest: 5 });
    expect(report.reduced.map(({ name, what }) => `${name}: ${what}`)).toEqual([
      'a: breed left out',
      'b: breed left out, age told in a wider band',
      'c: breed and age left out',
      'd: breed, age and sex left out',
      'e: withheld, as it stands apart whatever is left out',
    ]);
    expect(report.alike).toEqual([
      {
        group: 1,
        what: `dog, no breed, 4 or more years, female neutered, spay, ${WHIPPET.region}`,
      },
    ]);
  });
});
