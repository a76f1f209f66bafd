import { describe, expect, it } from 'vitest';
import type { Change } from '../record/sample.js';
import { builtFrom } from '../words/owner/sheet-of.js';

const KINDS = [
  'a dose with food before the first meal',
  'food beside a dose on an empty stomach',
] as const;
const asked = (...changes: Change[]) => {
  const built = builtFrom([], ...changes);
  if (!built.ok) throw new Error(JSON.stringify(built.problems));
  return built.value.warnings.filter(({ kind }) => KINDS.some((one) => one === kind));
};
const meal = (from: string): Change => [
  '  rest: 2 weeks\n',
  `  rest: 2 weeks\n  food: { from: ${from}, how much: half a meal, what: usual food }\n`,
];

describe('a dose with food', () => {
  // Every 12 h from 08:40: the first at home at 20:40.
  it('is asked about where it falls before the first meal', () => {
    expect(asked(meal('20:40'))).toEqual([]);
    expect(asked(meal('20:41'))).toMatchObject([
      {
        kind: KINDS[0],
        field: 'home.medicines[0].food',
        found: 'carprofen with food at 2026-03-09 20:40',
        expected: 'a first dose with food from the first meal on, at 20:41',
        accepted: null,
      },
    ]);
    expect(asked(meal('20:41'), ['food: with food', 'food: either'])).toEqual([]);
    expect(asked()).toEqual([]);
  });

  const second = (food: string, first: string): Change => [
    '  collar: 12 days\n',
    `    - drug: sucralfate
      for: infection
      strength: 1 g/tablet
      give: 1/4 tablet
      route: by mouth
      every: 12 h
      food: ${food}
      first: ${first}
      doses: 3
  collar: 12 days\n`,
  ];

  it('is asked about within an hour of one on an empty stomach, before or after it', () => {
    for (const first of ['2026-03-10 07:40', '2026-03-10 08:40', '2026-03-10 09:40']) {
      expect(asked(second('without food', first)), first).toMatchObject([
        {
          kind: KINDS[1],
          field: 'home.medicines[1].food',
          found: `sucralfate without food at ${first}, and carprofen with food at most 1 h from it`,
        },
      ]);
    }
    for (const first of ['2026-03-10 07:39', '2026-03-10 09:41']) {
      expect(asked(second('without food', first)), first).toEqual([]);
    }
    expect(asked(second('either', '2026-03-10 08:40'))).toEqual([]);
  });
});
