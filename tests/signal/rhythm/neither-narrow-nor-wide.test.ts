import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

/** A QRS of a cat of some 0.055 s, and its T in the other direction. */
const BEAT: readonly Bell[] = [
  { at: 0, height: 1, width: 0.0095 },
  { at: 0.085, height: -0.35, width: 0.022 },
];
const P: Bell = { at: -0.065, height: 0.12, width: 0.008 };

function possible(rate: number, waves: readonly Bell[]): readonly string[] {
  const lead = syntheticLead({
    rate: 500,
    duration: 20,
    beats: Array.from({ length: Math.floor((19.5 * rate) / 60) }, (_, i) => 0.3 + (i * 60) / rate),
    waves: () => [...waves],
    noise: 0.005,
    seed: 2,
  });
  const { rhythms } = analyseStrip([{ ...lead, label: 'II' }], {
    patient: patientOf('cat'),
    breath: {},
  });
  return rhythms.flatMap((rhythm) => rhythm.possible);
}

describe('a QRS neither narrow nor wide that no P leads', () => {
  it('may be of the ventricles', () => {
    expect(possible(150, BEAT)).toContain('idioventricular rhythm');
  });

  it('may be a tachycardia of theirs above the range', () => {
    expect(possible(270, BEAT)).toContain('ventricular tachycardia');
  });

  it('is not said to be where P leads', () => {
    expect(possible(150, [P, ...BEAT])).not.toContain('idioventricular rhythm');
  });
});
