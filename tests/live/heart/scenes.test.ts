import { describe, expect, it } from 'vitest';
import { paceAt } from '../../../src/live/heart/pace.js';
import { phaseAt } from '../../../src/live/heart/phase.js';
import { scenesOf } from '../../../src/live/heart/scenes.js';
import { beatAt, strip, wave } from './records.js';

describe('the scenes of a strip', () => {
  const record = strip([beatAt(1), beatAt(2), beatAt(4)], { loneP: [wave(2.87, 2.91)] });

  it('follow each other without a hole, and each is one thing to say', () => {
    const scenes = scenesOf(record, 10, false);
    expect(scenes[0]?.from).toBe(0);
    expect(scenes.at(-1)?.to).toBe(10);
    scenes.forEach(({ from, to, second }, i) => {
      if (i > 0) expect(from).toBe(scenes[i - 1]?.to);
      const { step } = phaseAt(record, second);
      for (const share of [0.02, 0.3, 0.98]) {
        expect(phaseAt(record, from + (to - from) * share).step).toBe(step);
      }
    });
  });

  it('show a beat as P, node, bundle, QRS, the gap, T and rest', () => {
    const steps = scenesOf(record, 10, false).map(({ second }) => phaseAt(record, second).step);
    const beat = ['atria', 'holding', 'passing', 'ventricles', 'plateau', 'recovery'];
    expect(steps).toEqual([
      'edge',
      ...beat.slice(0, 3).map(() => expect.any(String)),
      ...beat.slice(3),
      'rest',
      ...beat,
      'rest',
      'atria',
      'blocked',
      'rest',
      ...beat,
      'edge',
    ]);
  });

  it('are more where valves are shown to move', () => {
    expect(scenesOf(record, 10, true).length).toBeGreaterThan(scenesOf(record, 10, false).length);
  });
});

describe('the pace', () => {
  it('is as wanted where the heart beats up to three times a second', () => {
    const slow = strip([beatAt(1), beatAt(1.5), beatAt(2)]);
    expect(paceAt(slow, 1.6, 1)).toBe(1);
    expect(paceAt(slow, 1.6, 0.1)).toBe(0.1);
    expect(paceAt(strip([]), 1, 1)).toBe(1);
  });

  it('is slower where more beats than three would pass in a second (WCAG 2.2, 2.3.1)', () => {
    const fast = strip([1, 1.25, 1.5, 1.75].map((time) => beatAt(time)));
    expect(paceAt(fast, 1.3, 1)).toBeCloseTo(0.75, 6);
    expect(paceAt(fast, 1.3, 0.25)).toBe(0.25);
  });
});
