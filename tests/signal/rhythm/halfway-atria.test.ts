import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { detectBeats } from '../../../src/signal/beats/detect.js';
import { avBlockFixed } from '../../synth/rhythms/av-block.js';
import { completeBlock } from '../../synth/rhythms/av-block-advanced.js';
import { truthOf } from '../../synth/truth.js';
import { matchBeats } from '../../tools/match-beats.js';
import { patientOf, renderedLeads } from './strips.js';

const THIRD = 'third-degree atrioventricular block';

function names(atria: number, junction: number, seed: number): string[] {
  const plan = completeBlock(
    { species: 'cat', duration: 20, seed, rate: atria },
    { rate: junction, from: 'junction' },
  );
  const leads = renderedLeads(plan, seed, []);
  return analyseStrip(leads, { patient: patientOf('cat'), breath: {} }).rhythms.map(
    ({ name }) => name,
  );
}

describe('complete block in a cat', () => {
  it.each([
    [181, 100],
    [190, 92],
  ])('is told though each second P lies in a QRS or T (atria %d, QRS %d a minute)', (a, v) => {
    for (const seed of [51, 52, 53]) {
      expect(names(a, v, seed), `seed ${seed}`).toEqual([THIRD]);
    }
  });

  it('is not told where as many P waves as QRS go their own way', () => {
    for (const seed of [51, 52, 53]) expect(names(104, 108, seed)).not.toContain(THIRD);
  });
});

describe('blocked P waves of a cat', () => {
  it('are not counted as beats, close as P stands to the QRS', () => {
    for (const seed of [61, 62, 63, 64]) {
      const plan = avBlockFixed({ species: 'cat', duration: 20, seed, rate: 126 });
      const leads = renderedLeads(plan, seed, [{ kind: 'muscle', amplitude: 0.01 }]);
      const found = detectBeats(leads).map(({ time }) => time);
      const times = truthOf(plan).beats.map(({ time }) => time);
      expect(matchBeats(times, found, 0.08).extra, `seed ${seed}`).toEqual([]);
    }
  });
});
