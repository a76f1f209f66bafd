import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { NORMAL } from '../../../src/signal/rhythm/rhythm.js';
import { atrialFlutterTwoToOne } from '../../synth/rhythms/atrial-two-to-one.js';
import { patientOf, renderedLeads } from './strips.js';

// A few beats may miss a wave of the atria that all of them show: no part of the strip may be called sinus for that.
describe('flutter of a fast cat, each second wave conducted', () => {
  it.each([236, 243, 250])('bears no sinus name in any part of a strip at %d beats/min', (rate) => {
    for (let seed = 1; seed <= 12; seed += 1) {
      const plan = atrialFlutterTwoToOne({ species: 'cat', duration: 20, seed, rate });
      const leads = renderedLeads(plan, seed, [{ kind: 'wander', amplitude: 0.15 }]);
      const { rhythms } = analyseStrip(leads, { patient: patientOf('cat'), breath: {} });
      const normal = rhythms.filter(({ name }) => NORMAL.some((each) => each === name));
      expect(
        normal.map(({ name, from, to }) => [name, from, to]),
        `seed ${seed}`,
      ).toEqual([]);
    }
  });
});
