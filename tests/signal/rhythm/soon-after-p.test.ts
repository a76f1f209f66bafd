import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

/** The atria of a cat keep time to some thousandths of a second. */
const ATRIA = [0, 1.5, -1, 0.5, -1.5, 1].map((ms) => ms / 1000);
const CYCLE = 0.36;
/** From the peak of P to R: the QRS begins where P ends. */
const TO_R = 0.04;
const P: Bell = { at: 0, height: 0.11, width: 0.007 };
const BEAT: readonly Bell[] = [
  { at: TO_R, height: 1, width: 0.0045 },
  { at: TO_R + 0.011, height: -0.15, width: 0.004 },
  { at: TO_R + 0.085, height: 0.25, width: 0.016 },
];

function told(isFollowed: (i: number) => boolean): string[] {
  const atria = Array.from({ length: 80 }, (_, i) => 0.2 + i * CYCLE + ATRIA[i % ATRIA.length]!);
  const lead = syntheticLead({
    rate: 500,
    duration: 29.3,
    beats: atria,
    waves: (i) => (isFollowed(i) ? [P, ...BEAT] : [P]),
    noise: 0.004,
    seed: 3,
  });
  const channel = { ...lead, label: 'II' };
  const { rhythms } = analyseStrip([channel], { patient: patientOf('cat'), breath: {} });
  return rhythms.map(({ name }) => name);
}

describe('a P that ends where QRS begins is known again without one', () => {
  it('where each third is followed', () => {
    expect(told((i) => i % 3 === 0)).toEqual(['second-degree atrioventricular block, high-grade']);
  });

  it('where each fourth is not', () => {
    expect(told((i) => i % 4 !== 3)).toEqual(['second-degree atrioventricular block, constant PR']);
  });

  it('where all are', () => {
    expect(told(() => true)).toEqual(['sinus rhythm']);
  });
});
