import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { beatTimes, catWaves, dogWaves, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

// Common practice: a pacemaker that wanders within the sinus node changes the height of P slowly, not its time before QRS.
describe('a pacemaker that wanders', () => {
  it.each([
    ['dog', 100, dogWaves, 0.2],
    ['dog', 130, dogWaves, 0.25],
    ['cat', 180, catWaves, 0.25],
  ] as const)(
    'leads the beats of a %s at %d/min through its lowest P as well',
    (species, pace, waves, lowest) => {
      const lead = syntheticLead({
        rate: 500,
        duration: 30,
        beats: beatTimes(pace, 0.3, 29.8, 0.04, 7),
        waves: (index) => {
          const [p, ...others] = waves(pace);
          const share = lowest + (1 - lowest) * (0.5 + 0.5 * Math.cos((2 * Math.PI * index) / 16));
          return [{ ...p!, height: share * p!.height }, ...others];
        },
        noise: 0.002,
      });
      const { rhythms, beats } = analyseStrip([lead], { patient: patientOf(species), breath: {} });
      expect(rhythms.map(({ name }) => name)).toEqual(['sinus rhythm']);
      expect(beats.filter(({ p }) => p === null).length).toBeLessThanOrEqual(1);
    },
  );

  it('has none before a beat that begins between atria and ventricles', () => {
    const pace = 100;
    const lead = syntheticLead({
      rate: 500,
      duration: 30,
      beats: beatTimes(pace, 0.3, 29.8, 0.04, 7),
      waves: (index) => (index % 5 === 3 ? dogWaves(pace).slice(1) : dogWaves(pace)),
      noise: 0.004,
    });
    const { beats } = analyseStrip([lead], { patient: patientOf('dog'), breath: {} });
    expect(beats.filter((_, i) => i % 5 === 3).every(({ p }) => p === null)).toBe(true);
  });
});
