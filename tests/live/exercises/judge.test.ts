import { describe, expect, it } from 'vitest';
import type { ExerciseFacts } from '../../../src/facts/exercises.js';
import { judge } from '../../../src/live/exercises/judge.js';
import { saying } from '../../../src/live/saying.js';
import { demo } from '../../facts/demo.js';

const words = demo.content.languages.get('en')?.live ?? {};
const say = saying(words);
const judged = (exercise: ExerciseFacts, given: Record<string, string>) => {
  const { right, lines, unread } = judge(exercise, given, say);
  return { right, said: lines.join(' '), unread };
};

const COUNT: ExerciseFacts = {
  name: 'count-the-rate',
  strip: 0,
  mean: 88,
  windows: [
    { from: 12, to: 18, beats: 7, rate: 70, error: 70 / 88 - 1 },
    { from: 0, to: 60, beats: 88, rate: 88, error: 0 },
  ],
};

describe('a count', () => {
  it('is right within one beat at the edge, and its error is told', () => {
    expect(judged(COUNT, { 'window-0': '7', 'window-1': '88' })).toMatchObject({ right: true });
    const near = judged(COUNT, { 'window-0': '8', 'window-1': '' });
    expect(near.right).toBe(true);
    expect(near.said).toContain('you counted 8, which makes 80 beats/min');
    // (70 - 88) / 88 by hand.
    expect(near.said).toContain('−20.5 %');
    expect(near.said).toContain('no count given');
  });

  it('is wrong by more, and says what was there', () => {
    const off = judged(COUNT, { 'window-0': '12', 'window-1': '' });
    expect(off.right).toBe(false);
    expect(off.said).toContain('which makes 120 beats/min. The program found 7, which make 70');
  });

  it('tells how much one beat weighs in each window', () => {
    const { said } = judged(COUNT, { 'window-1': '88' });
    expect(said).toContain('over 6 s by 10 beats/min, and the one over 60 s by 1.');
  });

  it('is not judged where nothing or no number was written', () => {
    expect(judged(COUNT, { 'window-0': ' ' })).toMatchObject({ right: null, unread: [] });
    expect(judged(COUNT, { 'window-0': 'seven' })).toMatchObject({
      right: null,
      unread: ['window-0'],
    });
  });
});

describe('the P of each beat', () => {
  const facts: ExerciseFacts = {
    name: 'find-the-p',
    strip: 0,
    from: 0,
    to: 2,
    beats: [
      { time: 0.4, p: 'there', wave: [0.28, 0.32], pr: 0.1, kind: 'sinus' },
      { time: 0.9, p: 'none', wave: null, pr: null, kind: 'ventricular premature' },
      { time: 1.6, p: 'withheld', wave: null, pr: null, kind: 'sinus' },
    ],
  };

  it('is told beat by beat, with what is withheld', () => {
    const { right, said } = judged(facts, { 'beat-0': 'there', 'beat-1': 'there' });
    expect(right).toBe(false);
    expect(said).toContain('1 of 3 beats');
    expect(said).toContain('Beat 1, right: its P begins 0.1 s before the QRS.');
    expect(said).toContain('Beat 2, not quite: no P belongs to it');
    expect(said).toContain('Beat 3, not answered: withheld, as noise');
  });

  it.each([
    ['0.300', true, 'Beat 1, right: its P begins 0.1 s before the QRS.'],
    ['0.350', true, 'Beat 1, right'],
    [
      '0.200',
      false,
      'Beat 1, not quite: its P begins 0.1 s before the QRS. Your mark lies 0.08 s before it.',
    ],
    ['0.380', false, 'Your mark lies 0.06 s after it.'],
  ])('takes a mark at %s s where the P is, and says how far it is off', (mark, right, words) => {
    const given = { 'beat-0': 'there', 'mark-0': mark, 'beat-1': 'none', 'beat-2': 'withheld' };
    const told = judged(facts, given);
    expect(told.right).toBe(right);
    expect(told.said).toContain(words);
  });

  it('holds a mark to nothing where no P was told', () => {
    const told = judged(facts, { 'beat-2': 'there', 'mark-2': '1.5' });
    expect(told.said).toContain('Beat 3, not quite: withheld');
    expect(told.said).not.toContain('Your mark');
  });

  it('is right when every beat is', () => {
    const given = { 'beat-0': 'there', 'beat-1': 'none', 'beat-2': 'withheld' };
    expect(judged(facts, given).right).toBe(true);
  });
});

describe('the estimated mean pressure', () => {
  // 120/80 gives 93.33: OpenStax, Anatomy and Physiology, section 20.2.
  const facts: ExerciseFacts = {
    name: 'estimate-the-mean',
    minute: 10,
    systolic: 120,
    diastolic: 80,
    estimate: 80 + 40 / 3,
    middle: 100,
    given: 90,
  };

  it.each([
    ['93', true],
    ['94', true],
    ['93,3', true],
    ['95', false],
    ['100', false],
  ])('takes %s as %s', (mean, right) => {
    expect(judged(facts, { mean }).right).toBe(right);
  });

  it('knows the mistake of the middle, and holds the monitor beside the rule', () => {
    const { said } = judged(facts, { mean: '100' });
    expect(said).toContain('halfway between the two');
    expect(said).toContain('80 + (120 − 80) / 3 = 93.3 mmHg');
    expect(said).toContain('The monitor gave 90 mmHg, 3.3 mmHg from that.');
  });

  it('says when there was no mean to compare with', () => {
    const said = judged({ ...facts, given: null }, { mean: '93' }).said;
    expect(said).toContain('gave no mean at that minute');
  });
});

it('judges trust by the relation, and shows the numbers behind it', () => {
  const facts: ExerciseFacts = {
    name: 'trust-the-number',
    strip: 0,
    during: true,
    shown: [
      { from: 40, to: 40, lowest: 148, highest: 148, ratios: [2, 2], relation: 'about double' },
    ],
    alike: true,
    counted: 74,
    verdict: 'about double',
    shortWindow: null,
  };
  const right = judged(facts, { 'trust-the-number': 'about double' });
  expect(right).toMatchObject({ right: true });
  expect(right.said).toContain('148 at minute 40, 2.00 times the count');
  expect(right.said).toContain('Twice the count would be 148');
  expect(judged(facts, { 'trust-the-number': 'agrees' }).right).toBe(false);
});

it('tells each displayed rate with its minute where none was shown during the strip', () => {
  const facts: ExerciseFacts = {
    name: 'trust-the-number',
    strip: 0,
    during: false,
    shown: [
      { from: 35, to: 35, lowest: 150, highest: 150, ratios: [0.75, 0.75], relation: 'differs' },
      { from: 40, to: 40, lowest: 400, highest: 400, ratios: [2, 2], relation: 'about double' },
    ],
    alike: false,
    counted: 200,
    verdict: 'mixed',
    shortWindow: null,
  };
  const { right, said } = judged(facts, { 'trust-the-number': 'mixed' });
  expect(right).toBe(true);
  expect(said).toContain('No rate was displayed while it ran');
  expect(said).toContain('150 at minute 35, 0.75 times');
  expect(said).toContain('400 at minute 40, 2.00 times');
  // The doubled one is told even though the other does not share it.
  expect(said).toContain('Twice the count would be 400');
});

it.each(['linked', 'not linked'] as const)('judges the link to the breath: %s', (verdict) => {
  const facts: ExerciseFacts = {
    name: 'goes-with-the-breath',
    strip: 0,
    verdict,
    follow: 0.62,
    chance:
      verdict === 'linked'
        ? { surrogates: 999, matched: 0, p: 0.001 }
        : { surrogates: 66, matched: 19, p: 20 / 67 },
    breaths: 7,
    intervals: [],
    breathAt: [],
  };
  const { right, said } = judged(facts, { 'goes-with-the-breath': 'linked' });
  expect(right).toBe(verdict === 'linked');
  expect(said).toContain('62 %');
  expect(said).toContain(
    verdict === 'linked'
      ? 'None of 999 shuffled copies'
      : 'Of 66 shuffled copies of these beats, 19',
  );
  expect(said).toContain(verdict === 'linked' ? 'does not explain it' : 'chance explains it');
});

it('judges edges by the gap', () => {
  const facts: ExerciseFacts = {
    name: 'which-heals-first',
    own: { healing: 'left open', gap: 18, days: [23, 30] },
    other: { healing: 'left open', gap: 9, days: [12, 15], length: 'double' },
    first: 'other',
  };
  const { right, said } = judged(facts, { 'which-heals-first': 'other' });
  expect(right).toBe(true);
  expect(said).toContain('Edges 18 mm apart: about 23 to 30 days.');
  expect(said).toContain('twice as long');
  expect(judged(facts, { 'which-heals-first': 'both' }).right).toBe(false);
});

it('has every message that it says, in each language', () => {
  const exercises = demo.cases.length;
  expect(exercises).toBeGreaterThan(5);
  for (const { live } of demo.content.languages.values()) {
    const strict: typeof say = (key, values) => {
      expect(live, key).toHaveProperty([key]);
      const said = saying(live)(key, values);
      expect(said, key).not.toMatch(/\{\w+\}/);
      return said;
    };
    judge(COUNT, { 'window-0': '7', 'window-1': '87' }, strict);
    judge(COUNT, { 'window-0': '1' }, strict);
    judge(COUNT, { 'window-0': 'x' }, strict);
    judge(COUNT, {}, strict);
  }
});
