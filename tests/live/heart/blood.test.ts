import { describe, expect, it } from 'vitest';
import { bloodAt, DELAYS } from '../../../src/live/heart/blood.js';
import { beatAt, strip, wave } from './records.js';

const normal = strip([beatAt(1), beatAt(2), beatAt(3)]);

/**
 * The order of the valves: both inflow valves shut before both outflow valves open; these shut before the others open.
 * Source: OpenStax, Anatomy and Physiology 2e, section 19.3 (isovolumic contraction, ejection, isovolumic relaxation).
 */
describe('the blood of a beat', () => {
  it('moves only after the current did', () => {
    for (const delay of Object.values(DELAYS)) expect(delay).toBeGreaterThan(0);
    // QRS begins at 1.97 s: at that instant the ventricles still fill.
    expect(bloodAt(normal, 1.975)).toMatchObject({ inflow: 'open', outflow: 'shut' });
  });

  it('fills, is pressed on by the atria, shut in, ejected, and shut off again, in this order', () => {
    const steps: string[] = [];
    for (let second = 1.5; second < 2.5; second += 0.001) {
      const { step } = bloodAt(normal, second);
      if (steps.at(-1) !== step) steps.push(step);
    }
    expect(steps).toEqual(['filling', 'kick', 'bothShut', 'ejection', 'relaxing', 'filling']);
  });

  it('never runs backwards: no valve is open at both ends of a ventricle', () => {
    for (let second = 1; second < 3; second += 0.001) {
      const { inflow, outflow, flows } = bloodAt(normal, second);
      expect(inflow === 'open' && outflow === 'open').toBe(false);
      if (flows.includes('fill')) expect(inflow).toBe('open');
      if (flows.includes('out')) expect(outflow).toBe('open');
    }
  });

  it('has both sides of the heart eject while T lasts', () => {
    expect(bloodAt(normal, 2.16)).toEqual({
      step: 'ejection',
      inflow: 'shut',
      outflow: 'open',
      flows: ['return', 'out'],
    });
  });
});

describe('what a strip cannot tell of the blood', () => {
  it('is what an early beat ejects', () => {
    const early = strip([
      beatAt(1),
      beatAt(1.6, 'ventricular premature', { p: null, qrs: wave(1.55, 1.66) }),
      beatAt(2.6),
    ]);
    expect(bloodAt(early, 1.7)).toEqual({
      step: 'early',
      inflow: 'shut',
      outflow: 'not known',
      flows: [],
    });
  });

  it('is the end of a beat of which T was withheld', () => {
    const hidden = strip([beatAt(1), beatAt(2, 'sinus', { t: null }), beatAt(3)]);
    expect(bloodAt(hidden, 2.01).step).toBe('bothShut');
    expect(bloodAt(hidden, 2.5)).toMatchObject({ step: 'endNotKnown', outflow: 'not known' });
  });

  it('is everything before the first beat, after the last and where nothing can be read', () => {
    const broken = strip([beatAt(1), beatAt(2), beatAt(5), beatAt(6)], { unreadable: [2.5, 4] });
    for (const second of [0.5, 2.45, 3, 4.5, 9]) {
      expect(bloodAt(broken, second)).toEqual({
        step: 'notKnown',
        inflow: 'not known',
        outflow: 'not known',
        flows: [],
      });
    }
  });
});

it.each(['ventricular fibrillation', 'asystole'] as const)('shows no output in %s', (ruled) => {
  expect(bloodAt(strip([], { ruled }), 5)).toMatchObject({ step: 'noOutput', flows: [] });
});
