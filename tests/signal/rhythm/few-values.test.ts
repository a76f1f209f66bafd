import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { randomFrom } from '../../synth/random.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

/** Sharp, with its Q and S, which a recorder's filter has broadened to some 0.07 s. */
const SHARP: readonly Bell[] = [
  { at: -0.055, height: 0.06, width: 0.012 },
  { at: -0.02, height: -0.1, width: 0.007 },
  { at: 0, height: 0.9, width: 0.006 },
  { at: 0.02, height: -0.15, width: 0.008 },
  { at: 0.085, height: 0.2, width: 0.022 },
];
/** As wide, without a sharp stroke, and its T the other way. */
const BROAD: readonly Bell[] = [
  { at: 0, height: 0.9, width: 0.018 },
  { at: 0.105, height: -0.35, width: 0.025 },
];

function named(waves: readonly Bell[], pace: number, seed: number): string[] {
  const random = randomFrom(seed);
  const beats: number[] = [];
  for (let t = 0.2; t < 19.6; t += (60 / pace) * (1 + 0.02 * random.gaussian())) beats.push(t);
  const lead = syntheticLead({
    rate: 100,
    duration: 20,
    beats,
    waves: () => [...waves],
    noise: 0.05,
    seed,
  });
  const { rhythms } = analyseStrip([{ ...lead, label: 'II' }], {
    patient: patientOf('cat'),
    breath: {},
  });
  return rhythms.map(({ name }) => name);
}

describe('beats of few values a second, in noise that hides P', () => {
  it.each([1, 2, 3])('are none of the ventricles where QRS has a sharp stroke, seed %i', (seed) => {
    expect(named(SHARP, 147, seed)).not.toContain('accelerated idioventricular rhythm');
    expect(named(SHARP, 262, seed)).not.toContain('ventricular tachycardia');
  });

  it('are where it has none', () => {
    expect(named(BROAD, 147, 1)).toContain('accelerated idioventricular rhythm');
    expect(named(BROAD, 262, 1)).toContain('ventricular tachycardia');
  });
});
