import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { withoutJumps } from '../../../src/signal/filter/jumps.js';
import type { Channel } from '../../../src/signal/waveform.js';
import { beatTimes, dogWaves, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from '../rhythm/strips.js';
import { names } from '../told-bells.js';

const sinus = syntheticLead({
  rate: 500,
  duration: 20,
  beats: beatTimes(100, 0.4, 19.7, 0.02),
  waves: () => dogWaves(100),
  noise: 0.004,
});

/** The lead from a time on elsewhere, mV, from where it comes back over `seconds`. */
function jumped(lead: Channel, at: number, height: number, seconds: number): Channel {
  const samples = lead.samples.map((x, i) => {
    const after = i / lead.samplingRate - at;
    return after < 0 ? x : x + height * Math.exp(-after / seconds);
  });
  return { ...lead, samples };
}

const told = (lead: Channel) =>
  analyseStrip([lead], { patient: patientOf('dog'), breath: { annotations: [], channels: [] } });

describe('a jump of an electrode', () => {
  it('is no beat, and makes none beside it early', () => {
    const calm = told(sinus);
    // Between T and P, and 60 ms before an R.
    const times = [calm.beats[8]!.time + 0.35, calm.beats[20]!.time - 0.06];
    const found = told(jumped(jumped(sinus, times[0]!, -1.4, 0.8), times[1]!, 1.2, 1.1));
    expect(found.beats).toHaveLength(calm.beats.length);
    expect(names(found)).toEqual(['sinus rhythm']);
    expect(found.rhythms.flatMap(({ within }) => within)).toEqual([]);
  });

  it('is taken out where it is, and the trace left as it was everywhere else', () => {
    const out = withoutJumps(jumped(sinus, 8, 1, 1)).samples;
    expect(out.subarray(0, 3999)).toEqual(sinus.samples.subarray(0, 3999));
    const steps = Array.from(out.subarray(1), (x, i) => Math.abs(x - out[i]!));
    expect(Math.max(...steps)).toBeLessThan(0.25);
  });

  it.each([
    [
      'R and S on a slope',
      [
        { at: 0, height: 1, width: 0.012 },
        { at: 0.035, height: -1, width: 0.015 },
      ],
    ],
    [
      'a wave of a ventricle with its T',
      [
        { at: 0, height: 1.2, width: 0.025 },
        { at: 0.14, height: -0.9, width: 0.03 },
      ],
    ],
    [
      'a tall T',
      [
        { at: 0, height: 1, width: 0.008 },
        { at: 0.15, height: 1.2, width: 0.03 },
      ],
    ],
  ])('is none where there is %s', (_, waves) => {
    const lead = syntheticLead({
      rate: 500,
      duration: 20,
      beats: beatTimes(110, 0.4, 19.7, 0.02),
      waves: () => waves,
      wander: { height: 0.8, period: 4 },
      noise: 0.004,
    });
    expect(withoutJumps(lead)).toBe(lead);
  });

  it('is none where ventricles flutter or fibrillate', () => {
    for (const period of [0.11, 0.15, 0.2, 0.26, 0.33]) {
      const lead = syntheticLead({
        rate: 500,
        duration: 10,
        beats: [],
        waves: () => [],
        wander: { height: 1, period },
        noise: 0.01,
      });
      expect(withoutJumps(lead)).toBe(lead);
    }
  });

  it('is left where samples are missing', () => {
    const samples = sinus.samples.slice();
    samples.fill(Number.NaN, 5000, 5400);
    const lead = { ...sinus, samples };
    expect(withoutJumps(lead)).toBe(lead);
    expect(withoutJumps({ ...sinus, samples: new Float64Array(3) }).samples).toHaveLength(3);
  });
});
