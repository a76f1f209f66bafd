import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../../src/signal/analyse.js';
import { beatTimes, dogWaves, syntheticLead } from '../../../tools/synthetic-strip.js';
import { patientOf } from '../strips.js';

/** Names of a dog's strip at 250 Hz whose P has two tips so far from its middle, s, the second so much higher than the first. */
function namesOf(pace: number, duration: number, apart: number, second: number, noise = 0.004) {
  const [, ...others] = dogWaves(pace, 1.5);
  const lead = syntheticLead({
    rate: 250,
    duration,
    beats: beatTimes(pace, 0.3, duration - 0.2, 0.02, 3),
    waves: () => [
      { at: -0.1 - apart, height: 0.2, width: 0.008 },
      { at: -0.1 + apart, height: 0.2 * second, width: 0.008 },
      ...others,
    ],
    noise,
    seed: 5,
  });
  const { rhythms } = analyseStrip([lead], { patient: patientOf('dog'), breath: {} });
  return rhythms.map(({ name }) => name);
}

describe('a P of two tips that nearly touch', () => {
  it.each([
    [132, 20, 0.01, 1.15],
    [132, 7, 0.01, 1.15],
    [132, 20, 0.011, 1],
    [115, 20, 0.01, 0.9],
    [90, 20, 0.012, 1.15],
  ])('leads a sinus rhythm at %d/min over %d s', (pace, duration, apart, second) => {
    expect(namesOf(pace, duration, apart, second)).toEqual(['sinus rhythm']);
  });
});

describe('a P of one tip that lasts long', () => {
  it.each([
    [132, 250],
    [132, 500],
    [140, 125],
    [126, 250],
  ])('leads a sinus rhythm at %d/min, sampled at %d Hz, from end to end', (pace, rate) => {
    const lead = syntheticLead({
      rate,
      duration: 20,
      beats: beatTimes(pace, 0.3, 19.8),
      waves: () => dogWaves(pace),
      noise: 0.01,
    });
    const { rhythms } = analyseStrip([lead], { patient: patientOf('dog'), breath: {} });
    expect(rhythms.map(({ name }) => name)).toEqual(['sinus rhythm']);
  });
});
