import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

const CYCLE = 0.54;
/** The atria are not always stirred alike. */
const pOf = (i: number): Bell => ({ at: -0.09, height: i % 3 === 0 ? 0.09 : 0.13, width: 0.012 });
const BEAT: readonly Bell[] = [
  { at: -0.016, height: -0.12, width: 0.006 },
  { at: 0, height: 1.2, width: 0.0075 },
  { at: 0.018, height: -0.2, width: 0.007 },
  { at: 0.14, height: -0.25, width: 0.03 },
];

/** @param followed of each P whether a beat follows */
function told(followed: string) {
  const lead = syntheticLead({
    rate: 500,
    duration: 30,
    beats: Array.from({ length: followed.length }, (_, i) => 0.3 + i * CYCLE + (i % 2) * 0.003),
    waves: (i) => (followed[i] === '1' ? [pOf(i), ...BEAT] : [pOf(i)]),
    noise: 0.004,
    seed: 9,
  });
  return analyseStrip([{ ...lead, label: 'II' }], { patient: patientOf('dog'), breath: {} });
}

describe('beats that follow one another within a block', () => {
  it.each([
    '1101101101111010110111111111011111011110111111011011111',
    '1010110101011110101010111101010101111010101011101010101',
  ])('come on time, as the atria do: %s', (followed) => {
    const { rhythms, beats } = told(followed);
    expect(rhythms.map(({ name }) => name)).toEqual([
      'second-degree atrioventricular block, constant PR',
    ]);
    expect(rhythms[0]!.within).toEqual([]);
    expect(beats.filter(({ kind }) => kind === 'supraventricular premature')).toEqual([]);
  });
});
