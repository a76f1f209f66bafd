import { expect, it } from 'vitest';
import { withoutMains } from '../../../src/signal/filter/excerpt.js';
import type { Evidence } from '../../../src/signal/rhythm/evidence/evidence.js';
import { evidenceOf } from '../../../src/signal/rhythm/evidence/evidence.js';
import { sinusProof } from '../../../src/signal/rhythm/evidence/sinus-proof.js';
import { sinus } from '../../synth/rhythms/sinus.js';
import { stripFromTruth } from './strips.js';

const { leads, beats, loneP, patient } = stripFromTruth(
  sinus({ species: 'dog', rate: 110, seed: 5, duration: 30 }),
  5,
);
const led = evidenceOf(
  {
    leads,
    quiet: leads.map(withoutMains),
    beats,
    loneP,
    patient,
    breath: 'cannot tell',
    pulses: [],
  },
  0,
  30,
);

/** The same beats beside two P waves that no QRS follows. */
const withLoneP = (mostInARow: number, inStep: number): Evidence => ({
  ...led,
  conduction: { ...led.conduction, blocked: 2, marked: 2, mostInARow, inStep },
});

it('two P waves in a row without a QRS, a cycle apart, prove a block though fifty beats are conducted', () => {
  expect(sinusProof(withLoneP(2, 1)).proven).toBe(false);
});

it('two that stand apart, or out of step with the atria as a jolt leaves them, do not', () => {
  expect(sinusProof(withLoneP(1, 1)).proven).toBe(true);
  expect(sinusProof(withLoneP(2, 0)).proven).toBe(true);
});
