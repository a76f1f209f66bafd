import { describe, expect, it } from 'vitest';
import { bursts } from '../../../src/signal/quality/bursts.js';
import { readableLead } from '../../../src/signal/quality/readable-lead.js';
import { hertz } from '../../../src/units/brands.js';
import { makeNoise, NOISE_LEVELS, withNoise } from '../../synth/noise.js';
import { randomFrom } from '../../synth/random.js';
import { renderLead } from '../../synth/render.js';
import { RHYTHMS, type RhythmName } from '../../synth/rhythms/index.js';

const LENGTH = 30;

function noisy(
  name: RhythmName,
  rate: number,
  level: 'mild' | 'moderate' | 'severe',
  seed: number,
) {
  const plan = RHYTHMS[name]({ species: 'dog', duration: LENGTH, seed });
  const options = { length: LENGTH * rate, samplingRate: rate };
  const hiss = makeNoise('muscle', { ...options, amplitude: 0.006, random: randomFrom(seed + 1) });
  const burst = makeNoise('electrosurgery', {
    ...options,
    amplitude: NOISE_LEVELS.electrosurgery[level],
    random: randomFrom(seed + 2),
  });
  return { samples: withNoise(renderLead(plan, rate), hiss, burst), spans: burst.spans };
}

describe('bursts as of electrosurgery', () => {
  it.each([
    [250, 'mild'],
    [500, 'mild'],
    [500, 'severe'],
    [1000, 'moderate'],
  ] as const)('are found at %d Hz, %s, and nothing else', (rate, level) => {
    for (const seed of [1, 2, 3, 4]) {
      const { samples, spans } = noisy('sinus', rate, level, seed);
      const found = bursts(samples, rate).map(({ from, to }) => ({
        from: from / rate,
        to: to / rate,
      }));
      for (const { from, to } of spans) {
        // A burst of under half a second is not withheld; its edges may be a part off.
        if (to - from < 1) continue;
        const middle = found.filter((f) => f.from < from + 0.3 && f.to > to - 0.3);
        expect(middle, `${from.toFixed(2)} to ${to.toFixed(2)} s, seed ${seed}`).toHaveLength(1);
      }
      for (const f of found) {
        expect(spans.some(({ from, to }) => f.from > from - 0.6 && f.to < to + 0.6)).toBe(true);
      }
    }
  });

  it('are found behind the filter of a recorder, which leaves of them what is slower than 40 Hz', () => {
    const plan = RHYTHMS.sinus({ species: 'dog', duration: LENGTH, seed: 3 });
    const samples = renderLead(plan, 500);
    for (let i = 12.1 * 500; i < 13.4 * 500; i += 1) {
      const t = i / 500;
      samples[i]! += Math.sin(2 * Math.PI * 36 * t) + 0.6 * Math.sin(2 * Math.PI * 29 * t);
    }
    const [found, ...others] = bursts(samples, 500);
    expect(others).toEqual([]);
    expect(found!.from / 500).toBeCloseTo(12.1, 0);
    expect(found!.to / 500).toBeCloseTo(13.4, 0);
  });

  it('may last no longer than two of the parts that are judged, whatever these come to in samples', () => {
    // 125 Hz: a quarter of a second is 31.25 samples.
    const plan = RHYTHMS.sinus({ species: 'dog', duration: LENGTH, seed: 3 });
    const samples = renderLead(plan, 125);
    for (let i = 31 * 40; i < 31 * 42; i += 1) samples[i]! += i % 2 === 0 ? 1 : -1;
    expect(bursts(samples, 125)).toHaveLength(1);
  });

  it('are not seen in a wide, notched QRS that few values show', () => {
    const hump = (t: number, at: number, width: number) => Math.exp(-0.5 * ((t - at) / width) ** 2);
    for (const rate of [100, 125]) {
      const samples = Float64Array.from({ length: 8 * rate }, (_, i) => {
        const t = (i / rate) % 0.47;
        return (
          0.15 * hump(t, 0.1, 0.012) +
          1.9 * hump(t, 0.2, 0.006) -
          2 * hump(t, 0.22, 0.006) -
          1.5 * hump(t, 0.25, 0.02) -
          0.25 * hump(t, 0.34, 0.03)
        );
      });
      expect(bursts(samples, rate), `${rate} Hz`).toEqual([]);
    }
  });

  it('are not seen in waves of the heart, however wild', () => {
    for (const name of [
      'ventricular-fibrillation',
      'ventricular-tachycardia',
      'ventricular-runs',
    ] as const) {
      for (const rate of [100, 250, 500]) {
        const plan = RHYTHMS[name]({ species: 'dog', duration: LENGTH, seed: 5 });
        expect(bursts(renderLead(plan, rate), rate), `${name} at ${rate} Hz`).toEqual([]);
      }
    }
  });
});

describe('a line of hiss alone', () => {
  const hiss = makeNoise('muscle', {
    length: LENGTH * 500,
    samplingRate: 500,
    amplitude: 0.008,
    random: randomFrom(9),
  }).samples;
  const lead = (samples: Float64Array) => ({
    label: 'II',
    unit: 'mV',
    samplingRate: hertz(500),
    samples,
  });

  it('is a flat line, not noise as large as a QRS', () => {
    expect(readableLead(lead(hiss)).spans).toMatchObject([
      { from: 0, to: LENGTH, why: 'flat line' },
    ]);
  });

  it('of five seconds between beats is a pause and can be read', () => {
    const plan = RHYTHMS.sinus({ species: 'dog', duration: 12, seed: 8 });
    const beats = renderLead(plan, 500);
    const samples = hiss.slice();
    for (let i = 0; i < beats.length; i += 1) samples[i]! += beats[i]!;
    for (let i = 0; i < beats.length; i += 1) samples[17 * 500 + i]! += beats[i]!;
    expect(readableLead(lead(samples)).spans).toMatchObject([{ readable: true }]);
  });
});
