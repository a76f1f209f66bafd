import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import {
  ACTIVITIES,
  bathFrom,
  type CarePlan,
  carePlan,
  closedFrom,
  JOINED_LOOKS,
  leastRest,
  movedDay,
  mustKeepEating,
  OPEN_LOOKS,
  type PlanInput,
} from '../../src/care/plan.js';
import { type HealingEstimate, LATE_REMOVAL_DAYS, REMOVAL_DAYS } from '../../src/care/wound.js';
import { SPECIES } from '../../src/record/vocabulary.js';

const USUAL: HealingEstimate = { by: 'joined edges', ...REMOVAL_DAYS, later: [] };
const LATE: HealingEstimate = { by: 'joined edges', ...LATE_REMOVAL_DAYS, later: ['high tension'] };
const OPEN: HealingEstimate = { by: 'filling in', from: 23, to: 30, later: ['contamination'] };

/** Tuesday, March 10, home the same day, rest to day 14. */
const input = (change: Partial<PlanInput> = {}): PlanInput => ({
  surgery: '2026-03-10',
  homeOn: '2026-03-10',
  estimate: USUAL,
  restUntil: '2026-03-24',
  fullFrom: '2026-03-31',
  ...change,
});

const rows = ({ stages }: CarePlan) =>
  stages.map(({ from, to, activity, look }) => [from.slice(5), to?.slice(5), activity, look]);

describe('the plan', () => {
  it('looks at the wound on days 1, 3, 7 and 10 where edges were joined (common practice)', () => {
    expect(rows(carePlan(input()))).toEqual([
      ['03-10', '03-10', 'settle in', 'fresh'],
      ['03-11', '03-12', 'rest', 'early'],
      ['03-13', '03-16', 'short walks', 'settling'],
      ['03-17', '03-19', 'short walks', 'crusts'],
      ['03-20', '03-24', 'short walks', 'flat'],
      ['03-25', '03-30', 'build up', 'scar'],
      ['03-31', undefined, 'full', 'scar'],
    ]);
  });

  it('moves days 3, 7 and 10 to days 4, 10 and 14 where the closure needs 14 days, and says why', () => {
    const late = carePlan(input({ estimate: LATE, restUntil: '2026-03-31', fullFrom: null }));
    expect(rows(late)).toEqual([
      ['03-10', '03-10', 'settle in', 'fresh'],
      ['03-11', '03-13', 'rest', 'early'],
      ['03-14', '03-19', 'short walks', 'settling'],
      ['03-20', '03-23', 'short walks', 'crusts'],
      ['03-24', '03-31', 'short walks', 'flat'],
      ['04-01', undefined, 'build up', 'scar'],
    ]);
    expect(late.later).toEqual(['high tension']);
    expect(carePlan(input()).later).toEqual([]);
  });

  it('begins on the day at home, however long after surgery that is', () => {
    const stayed = carePlan(input({ homeOn: '2026-03-14' }));
    expect(rows(stayed).slice(0, 3)).toEqual([
      ['03-14', '03-14', 'settle in', 'settling'],
      ['03-15', '03-16', 'short walks', 'settling'],
      ['03-17', '03-19', 'short walks', 'crusts'],
    ]);
  });

  it('shows an open wound as it fills in, on days that nothing moves', () => {
    const open = carePlan(input({ estimate: OPEN, restUntil: '2026-03-31', fullFrom: null }));
    expect(rows(open)).toEqual([
      ['03-10', '03-10', 'settle in', 'open fresh'],
      ['03-11', '03-12', 'rest', 'open wet'],
      ['03-13', '03-17', 'short walks', 'open red'],
      ['03-18', '03-31', 'short walks', 'open shrinking'],
      ['04-01', undefined, 'build up', 'open shrinking'],
    ]);
    expect(open.later).toEqual(['contamination']);
  });

  it('promises no full activity that the record does not date', () => {
    const activities = carePlan(input({ fullFrom: null })).stages.map(({ activity }) => activity);
    expect(activities.at(-1)).toBe('build up');
    expect(activities).not.toContain('full');
  });

  it('has no gap, no going back and one end, whatever the days', () => {
    const day = (after: number) =>
      Temporal.PlainDate.from('2024-02-20').add({ days: after }).toString();
    const estimates = fc.constantFrom(USUAL, LATE, OPEN);
    fc.assert(
      fc.property(
        estimates,
        fc.nat(20),
        fc.integer({ min: 1, max: 60 }),
        fc.option(fc.nat(60)),
        (estimate, home, rest, more) => {
          const { stages } = carePlan({
            estimate,
            surgery: day(0),
            homeOn: day(home),
            restUntil: day(rest),
            fullFrom: more === null ? null : day(rest + more),
          });
          expect(stages[0]?.from).toBe(day(home));
          expect(stages.map(({ to }) => to === null)).toEqual(
            stages.map((_, i) => i === stages.length - 1),
          );
          const looks = estimate === OPEN ? OPEN_LOOKS : JOINED_LOOKS;
          stages.slice(1).forEach((stage, i) => {
            const before = stages[i] as (typeof stages)[number];
            expect(
              Temporal.PlainDate.from(before.to as string)
                .add({ days: 1 })
                .toString(),
            ).toBe(stage.from);
            expect(ACTIVITIES.indexOf(stage.activity)).toBeGreaterThanOrEqual(
              ACTIVITIES.indexOf(before.activity),
            );
            const rank = (look: string) => (looks as readonly string[]).indexOf(look);
            expect(rank(stage.look)).toBeGreaterThanOrEqual(rank(before.look));
            expect([stage.activity, stage.look]).not.toEqual([before.activity, before.look]);
          });
        },
      ),
    );
  });

  it('allows nothing earlier for a wound that heals more slowly', () => {
    for (let day = 0; day <= 30; day++) {
      expect(movedDay(day, LATE)).toBeGreaterThanOrEqual(movedDay(day, USUAL));
      expect(movedDay(day, USUAL)).toBe(day);
    }
  });
});

describe('a wound of another kind', () => {
  const looks = (change: Partial<PlanInput>) => [
    ...new Set(carePlan(input(change)).stages.map(({ look }) => look)),
  ];
  it('is looked at as a mouth, whose days move with its healing', () => {
    expect(looks({ inMouth: true })).toEqual(['mouth fresh', 'mouth sore', 'mouth well']);
    const of = (estimate: HealingEstimate) =>
      carePlan(input({ inMouth: true, estimate })).stages.find(({ look }) => look === 'mouth well')
        ?.from;
    expect([of(USUAL), of(LATE)]).toEqual(['2026-03-17', '2026-03-20']);
  });

  it('is looked at without a bandage where it has none', () => {
    expect(looks({ estimate: OPEN, bare: true })).toEqual([
      'bare fresh',
      'open red',
      'open shrinking',
    ]);
  });

  it('can have closed when the small opening seals, or the gap has been filled', () => {
    expect(closedFrom(USUAL)).toBeNull();
    expect(closedFrom({ by: 'small opening', from: 7, to: 10, later: [] })).toBe(7);
    expect(closedFrom(OPEN)).toBe(31);
  });
});

it('rests until the edges hold, and six weeks for bone and ligament (from memory, unverified)', () => {
  expect(leastRest('spay', USUAL)).toBe(10);
  expect(leastRest('broken bone repair', LATE)).toBe(42);
});

describe('the first bath', () => {
  it.each<[HealingEstimate, string[], string]>([
    [USUAL, [], '2026-03-21'],
    [LATE, [], '2026-03-25'],
    [USUAL, ['2026-03-20', '2026-03-24'], '2026-03-25'],
    [USUAL, ['2026-03-13'], '2026-03-21'],
  ])(
    'comes the day after the last of what holds or guards the wound, %#',
    (estimate, last, day) => {
      expect(bathFrom('2026-03-10', estimate, last)).toBe(day);
    },
  );
});

it('lets no rabbit and no ferret fast (common practice)', () => {
  expect(SPECIES.filter(mustKeepEating)).toEqual(['rabbit', 'ferret']);
});
