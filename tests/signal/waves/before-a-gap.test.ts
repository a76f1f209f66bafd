import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { sinus } from '../../synth/rhythms/sinus.js';
import { patientOf, renderedLeads } from '../rhythm/strips.js';

// The long time to the next beat that can be read is no pause in which alone T would show.
describe('P and T of a fast cat whose lead cannot be read for a while', () => {
  it.each([200, 220])('are marked up to there and from there on, %d beats/min', (rate) => {
    for (const seed of [1, 2, 3]) {
      const plan = sinus({ species: 'cat', rate, seed, duration: 20 });
      const [lead] = renderedLeads(plan, seed, []);
      // Within a QRS, which is then no beat: what is left of it is no late T of the beat before.
      const last = plan.beats.find(({ time }) => time > 9)!;
      const from = Math.round((last.time + 0.015) * lead!.samplingRate);
      lead!.samples.fill(Number.NaN, from, from + Math.round(2.2 * lead!.samplingRate));
      const { beats } = analyseStrip([lead!], { patient: patientOf('cat'), breath: {} });
      // The first beat of each stretch may have its P before it, the last one its T after it.
      const without = (wave: 'p' | 't') => beats.filter((beat) => beat[wave] === null).length;
      expect(beats.length, `seed ${seed}`).toBeGreaterThan(50);
      expect(without('p'), `seed ${seed}`).toBeLessThanOrEqual(2);
      expect(without('t'), `seed ${seed}`).toBeLessThanOrEqual(2);
    }
  });
});
