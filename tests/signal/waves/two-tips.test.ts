import { describe, expect, it } from 'vitest';
import { detectBeats } from '../../../src/signal/beats/detect.js';
import { findWaves } from '../../../src/signal/waves/find-waves.js';
import { hertz } from '../../../src/units/brands.js';
import { renderLead } from '../../synth/render.js';
import { atrialFibrillation } from '../../synth/rhythms/atrial-fibrillation.js';
import { sinus } from '../../synth/rhythms/sinus.js';
import { EDGE_IN_WIDTHS } from '../../synth/truth.js';

const FS = 500;
/** Of each tip: width (standard deviation), and how far it lies from the middle, s. */
const WIDTH = 0.009;
const APART = 0.021;

/** Beats after a P of two equal tips with its middle `before` each R, s. */
function withTwoTips(seed: number, before: number, apart = APART, width = WIDTH) {
  const plan = sinus({ species: 'dog', duration: 30, seed });
  const beats = plan.beats.map((beat) => ({ ...beat, P: null }));
  const samples = renderLead({ ...plan, beats }, FS);
  for (const { time } of beats) {
    for (const tip of [time - before - apart, time - before + apart]) {
      for (let i = Math.max(0, Math.floor((tip - 0.1) * FS)); i < (tip + 0.1) * FS; i += 1) {
        samples[i]! += 0.14 * Math.exp(-0.5 * ((i / FS - tip) / width) ** 2);
      }
    }
  }
  return { beats, samples };
}

const wavesOf = (samples: Float64Array) => {
  const lead = { label: 'II', unit: 'mV', samplingRate: hertz(FS), samples };
  return findWaves([lead], detectBeats([lead]));
};

// As an enlarged left atrium draws it. Common practice.
describe('a P of two tips', () => {
  it('is marked from the beginning of the first to the end of the second', () => {
    for (const seed of [1, 2, 3]) {
      const { beats, samples } = withTwoTips(seed, 0.11);
      const found = wavesOf(samples).beats.filter(({ p }) => p);
      expect(found.length).toBeGreaterThanOrEqual(beats.length - 2);
      for (const { time, p } of found) {
        const reach = APART + EDGE_IN_WIDTHS * WIDTH;
        // CSE tolerances of P, of two standard deviations each: 10.2 and 12.7 ms. From memory, unverified.
        expect(Math.abs(time - p!.onset - 0.11 - reach)).toBeLessThan(2 * 0.0102);
        expect(Math.abs(time - p!.end - 0.11 + reach)).toBeLessThan(2 * 0.0127);
      }
    }
  });

  it('leaves no P alone where its tips stand so far apart that each is seen', () => {
    for (const seed of [1, 2, 3]) {
      const { beats, samples } = withTwoTips(seed, 0.12, 0.028, 0.008);
      const found = wavesOf(samples);
      expect(found.loneP).toEqual([]);
      expect(found.beats.filter(({ p }) => p).length).toBeGreaterThanOrEqual(beats.length - 2);
    }
  });

  it('is not seen in atria that fibrillate', () => {
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const plan = atrialFibrillation({ species: 'dog', duration: 30, seed });
      expect(wavesOf(renderLead(plan, FS)).beats.filter(({ p }) => p)).toEqual([]);
    }
  });
});
