import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../src/signal/analyse.js';
import type { StripContext } from '../../src/signal/strip-analysis.js';
import { hertz, kilogram, seconds } from '../../src/units/brands.js';
import { beatTimes, dogWaves, syntheticLead } from '../tools/synthetic-strip.js';

const dog: StripContext = {
  patient: { species: 'dog', weight: kilogram(12), ageYears: null, anesthetised: true },
  breath: {},
};
const beats = beatTimes(100, 0.3, 29.9);
const lead = () =>
  syntheticLead({ rate: 500, duration: 30, beats, waves: () => dogWaves(100), noise: 0.01 });

describe('the analysis of a strip', () => {
  it('tells quality, beats and rate, and the rhythm with its reasons', () => {
    const analysis = analyseStrip([lead()], dog);
    expect(analysis).toMatchObject({
      samplingRate: 500,
      duration: 30,
      quality: { readable: 1, spans: [{ from: 0, to: 30, readable: true, why: '' }] },
      rhythms: [{ name: 'sinus rhythm', from: 0, to: 30, within: [] }],
      because: {
        rate: null,
        shortWindow: null,
        longEnough: null,
        steadyFrom: null,
        variability: null,
      },
    });
    expect(analysis.beats).toHaveLength(beats.length);
    for (const beat of analysis.beats) {
      expect(beat.qrs?.peak).toBe(beat.time);
      expect(beat.kind).toBe('sinus');
    }
    expect(analysis.rate!.mean).toBeCloseTo(100, 1);
    expect(analysis.rate!.shortest).toBeCloseTo(0.6, 2);
    expect(analysis.rate!.longest).toBeCloseTo(0.6, 2);
    expect(analysis.rate!.shortWindow).toMatchObject({ window: 6 });
  });

  it('survives JSON unchanged', () => {
    const analysis = analyseStrip([lead()], dog);
    expect(JSON.parse(JSON.stringify(analysis))).toEqual(analysis);
  });

  it('holds no height where the lead whose heights are told cannot be read', () => {
    const two = lead();
    // The T of a beat is lost on lead II alone: lead I still shows where it lies.
    const at = Math.round((beats[20]! + 0.06) * 500);
    two.samples.fill(Number.NaN, at, at + 2 * 500);
    const one = { ...lead(), label: 'I' };
    const analysis = analyseStrip([two, one], dog);
    for (const { p, qrs, t } of analysis.beats) {
      for (const wave of [p, qrs, t]) if (wave) expect(wave.height).not.toBeNaN();
    }
    expect(JSON.parse(JSON.stringify(analysis))).toEqual(analysis);
  });

  it('claims no interval across a stretch that cannot be read', () => {
    const broken = lead();
    broken.samples.fill(Number.NaN, 10 * 500, 20 * 500);
    const { rate, quality, beats: found } = analyseStrip([broken], dog);
    expect(quality.readable).toBeCloseTo(2 / 3, 2);
    expect(found.every(({ time }) => time < 10 || time > 20)).toBe(true);
    expect(rate!.mean).toBeCloseTo(100, 1);
    expect(rate!.longest).toBeLessThan(0.61);
    expect(rate!.shortWindow!.low).toBeGreaterThanOrEqual(90);
  });

  it('tells a pause as the longest interval', () => {
    const paused = syntheticLead({
      rate: 500,
      duration: 30,
      beats: beats.filter((time) => time < 12 || time > 16.2),
      waves: () => dogWaves(100),
      noise: 0.01,
    });
    const { rate } = analyseStrip([paused], dog);
    expect(rate!.longest).toBeGreaterThan(4.2);
    expect(rate!.shortWindow!.low).toBeLessThan(50);
  });

  it.each([
    ['no samples', [] as Float64Array[]],
    ['no samples', [new Float64Array(0)]],
    ['nothing readable', [new Float64Array(5000).fill(Number.NaN)]],
    ['nothing readable', [new Float64Array(5000).fill(0.3)]],
    [
      'fewer than two beats',
      [syntheticLead({ rate: 500, duration: 5, beats: [2], waves: () => dogWaves(60) }).samples],
    ],
  ])('has no rate and says so: %s', (why, channels) => {
    const analysis = analyseStrip(
      channels.map((samples) => ({ label: 'II', unit: 'mV', samplingRate: hertz(500), samples })),
      dog,
    );
    expect(analysis.rate).toBeNull();
    expect(analysis.because.rate).toBe(why);
    expect(analysis.quality.readable).toBe(why === 'fewer than two beats' ? 1 : 0);
  });

  it('takes no stretch for a pause in which broad beats were missed', () => {
    const every = beatTimes(140, 0.3, 39.8);
    const bursts = syntheticLead({
      rate: 500,
      duration: 40,
      beats: every,
      waves: (i) =>
        i % 20 < 12
          ? dogWaves(140)
          : [
              { at: -0.1, height: 0.22, width: 0.014 },
              { at: 0.01, height: 1.3, width: 0.038 },
              { at: 0.13, height: -0.4, width: 0.03 },
            ],
      noise: 0.003,
    });
    const { rate } = analyseStrip([bursts], dog);
    expect(rate!.mean).toBeGreaterThan(130);
    expect(rate!.mean).toBeLessThan(150);
  });

  it('cannot tell whether waves that are no beats go with the breath', () => {
    const samples = new Float64Array(60 * 250);
    for (let i = 0; i < samples.length; i += 1) {
      const time = i / 250;
      samples[i] =
        0.25 * Math.sin(2 * Math.PI * (4.5 * time + 0.4 * Math.sin(2.1 * time))) +
        0.15 * Math.sin(2 * Math.PI * 6.1 * time + 1.7 * Math.sin(0.9 * time));
    }
    const { rate, breath, rhythms } = analyseStrip(
      [{ label: 'II', unit: 'mV', samplingRate: hertz(250), samples }],
      {
        ...dog,
        breath: {
          annotations: [
            0.5, 4, 8.2, 11.9, 16, 19.8, 24.1, 27.9, 32.2, 36, 39.8, 44.1, 48, 52.2, 56,
          ].map((time) => ({
            onset: seconds(time),
            duration: null,
            text: 'breath',
          })),
        },
      },
    );
    expect(rhythms.map(({ name }) => name)).toEqual(['ventricular fibrillation']);
    expect(rate).toBeNull();
    expect(breath).toMatchObject({ verdict: 'cannot tell', doubt: 'beats not counted' });
    expect(breath.phases.every((phase) => phase === null)).toBe(true);
  });

  it('has no count over 6 s on a strip of 5 s', () => {
    const samples = lead().samples.slice(0, 2500);
    const analysis = analyseStrip([{ ...lead(), samples }], dog);
    expect(analysis.rate!.mean).toBeCloseTo(100, 0);
    expect(analysis.rate!.shortWindow).toBeNull();
    expect(analysis.because.shortWindow).toBe('strip too short');
  });

  it('reads the same wherever it is read: equal input gives equal output', () => {
    expect(analyseStrip([lead()], dog)).toEqual(analyseStrip([lead()], dog));
  });
});
