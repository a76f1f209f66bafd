import { describe, expect, it } from 'vitest';
import { detectBeats } from '../../../src/signal/beats/detect.js';
import { RHYTHMS } from '../../synth/rhythms/index.js';
import { truthOf } from '../../synth/truth.js';
import { matchBeats } from '../../tools/match-beats.js';
import { renderedLeads } from '../rhythm/strips.js';

/** Wide beats that follow each second beat, as early as a late T would. Earlier ones (a dog's from 138, a cat's from 198) are still taken for T. */
describe.each([
  ['dog', [70, 95, 115, 125]],
  ['cat', [120, 150, 180]],
] as const)('early wide beats after each sinus beat of a %s', (species, rates) => {
  it.each(rates)('are beats, not T waves, at %d beats/min', (rate) => {
    for (const seed of [21, 22]) {
      const plan = RHYTHMS['ventricular-bigeminy']({ species, duration: 20, seed, rate });
      const leads = renderedLeads(plan, seed, []);
      const match = matchBeats(
        truthOf(plan).beats.map(({ time }) => time),
        detectBeats(leads).map(({ time }) => time),
        0.15,
      );
      expect([match.missed, match.extra], `seed ${seed}`).toEqual([[], []]);
    }
  });
});
