import { describe, expect, it } from 'vitest';
import { miscounted } from '../../src/facts/miscounted.js';
import { storyOf } from '../../src/facts/story.js';
import { demo } from './demo.js';

const storyFor = (name: string) => {
  const facts = demo.cases.find((one) => one.name === name)?.facts;
  if (!facts) throw new Error(`no demonstration case ${name}`);
  return storyOf(facts.anesthesia.events, facts.vitals, facts.wound.healing.value, facts.strips);
};

// The readings of cases/saffron/vitals.csv, mean pressure: 30:72, 35:70, then 40:46, 45:53, 50:61.
describe('the case in which a tie slips', () => {
  const story = storyFor('saffron');
  const turnOf = (what: string) =>
    story.turns.find(({ steps }) => steps.some((step) => step.what === what));

  it('tells the fall at the bleeding from the medians on both sides', () => {
    const turn = turnOf('bleeding');
    expect(turn).toMatchObject({
      minute: 37,
      verdict: 'fell',
      pressure: { before: { median: 71, count: 2 }, after: { median: 46, count: 1 } },
      soonAfter: null,
    });
  });

  it('lets no side reach over another step: after the control 45:53 alone, then tissue at 49', () => {
    expect(turnOf('bleeding stopped')).toMatchObject({
      pressure: { before: { median: 46, count: 1 }, after: { median: 53, count: 1 } },
      soonAfter: { steps: [{ what: 'bleeding' }], minute: 37 },
    });
    expect(turnOf('tissue removed')).toMatchObject({
      pressure: { before: { median: 53, count: 1 } },
      soonAfter: { steps: [{ what: 'bleeding stopped' }], minute: 42 },
    });
  });

  it('tells no change that a device could have made up', () => {
    expect(turnOf('first incision')?.verdict).toBe('held');
  });

  it('adds up what lay under 60 mmHg: 5·14 + 5·7', () => {
    expect(story.low).toEqual({ limit: 60, episodes: 1, minutes: 10, area: 105 });
  });
});

// cases/bramble/vitals.csv: 78 at minute 15, then 147 to 150 until minute 40, then 74; 74 counted on the strip, 148 shown.
it('compares no displayed rate that is known to be doubled', () => {
  const { miscounted, turns } = storyFor('bramble');
  expect(miscounted).toEqual([{ from: 20, to: 40, relation: 'about double', shown: [30, 30] }]);
  for (const { rate } of turns) {
    for (const side of [rate.before, rate.after]) expect(side?.median ?? 0).toBeLessThan(100);
  }
});

it('tells nothing of a mean pressure that was not measured', () => {
  const story = storyFor('clover');
  expect(story.low).toBeNull();
  expect(story.turns.length).toBeGreaterThan(0);
  expect(story.turns.every(({ verdict }) => verdict === null)).toBe(true);
  expect(story.turns.some(({ rate }) => rate.difference !== null)).toBe(true);
});

// cases/saffron/vitals.csv: mean pressure 72 and 70 at minutes 30 and 35, then 46 at minute 40.
it('tells a change once where two steps stand in one minute', () => {
  const facts = demo.cases.find((one) => one.name === 'saffron')?.facts;
  if (!facts) throw new Error('no demonstration case saffron');
  const events = facts.anesthesia.events.map((event) =>
    event.what === 'bleeding stopped' ? { ...event, minute: 37 } : event,
  );
  const { turns } = storyOf(events, facts.vitals, facts.wound.healing.value, facts.strips);
  expect(turns.map(({ minute }) => minute)).toEqual([...new Set(turns.map((one) => one.minute))]);
  expect(turns.filter(({ verdict }) => verdict === 'fell')).toMatchObject([
    {
      minute: 37,
      steps: [{ what: 'bleeding' }, { what: 'bleeding stopped' }],
      pressure: { before: { median: 71 }, after: { median: 49.5, count: 2 }, difference: -21.5 },
    },
  ]);
});

it('follows 10,000 readings on end that a strip refutes', () => {
  const readings = Array.from({ length: 10_000 }, (_, index) => ({
    minute: index / 60,
    value: 150,
    line: index + 2,
  }));
  const shown = { shown: { value: { shown: [{ from: 80, to: 80.5, relation: 'about double' }] } } };
  expect(miscounted([shown as never], readings)).toEqual([
    { from: 0, to: 9999 / 60, relation: 'about double', shown: [80, 80.5] },
  ]);
});
