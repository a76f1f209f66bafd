import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../src/signal/analyse.js';
import type { StripContext } from '../../src/signal/strip-analysis.js';
import type { Channel } from '../../src/signal/waveform.js';
import { hertz, kilogram } from '../../src/units/brands.js';
import { makeNoise, withNoise } from '../synth/noise.js';
import { randomFrom } from '../synth/random.js';
import { renderLead } from '../synth/render.js';
import { sinus } from '../synth/rhythms/sinus.js';

const RATE = 500;
const dog: StripContext = {
  patient: { species: 'dog', weight: kilogram(12), ageYears: 4, anesthetised: true },
  breath: {},
};

function lead(minutes: number): Channel {
  const clean = renderLead(
    sinus({ species: 'dog', duration: 60 * minutes, seed: 3, rate: 117 }),
    RATE,
  );
  const options = { length: clean.length, samplingRate: RATE, random: randomFrom(4) };
  const samples = withNoise(
    clean,
    makeNoise('wander', { ...options, amplitude: 0.07 }),
    makeNoise('muscle', { ...options, amplitude: 0.006 }),
  );
  return { label: 'II', unit: 'mV', samplingRate: hertz(RATE), samples };
}

/** Node, the test runner and compiled code, with room to spare, bytes. */
const PROGRAM = 250e6;

/** CPU time of one analysis in ms, that of other threads included. */
function costOf(recording: Channel): number {
  const before = process.cpuUsage();
  analyseStrip([recording], dog);
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

describe('the cost of an analysis', () => {
  const [short, long] = [lead(15), lead(30)];
  // The first call is spent on compiling.
  costOf(short);

  it('grows with the length of the strip, not with its square: 30 min cost less than 2.6 times 15 min', () => {
    const ratios: number[] = [];
    // A busy machine disturbs one of them at times.
    while (ratios.length < 4 && !ratios.some((ratio) => ratio < 2.6)) {
      const [half, whole] = [costOf(short), costOf(long)];
      ratios.push(whole / half);
    }
    expect(Math.min(...ratios)).toBeLessThan(2.6);
  });

  it('takes no more memory than 12 copies of the lead beside what runs this test', () => {
    costOf(long);
    const peak = process.resourceUsage().maxRSS * 1024;
    expect(peak).toBeLessThan(PROGRAM + 12 * long.samples.byteLength);
  });
});
