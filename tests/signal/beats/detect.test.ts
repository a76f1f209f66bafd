import { describe, expect, it } from 'vitest';
import { detectBeats } from '../../../src/signal/beats/detect.js';
import { hertz } from '../../../src/units/brands.js';
import { renderLead } from '../../synth/render.js';
import { RHYTHMS, type RhythmName } from '../../synth/rhythms/index.js';
import { truthOf } from '../../synth/truth.js';
import { matchBeats } from '../../tools/match-beats.js';
import {
  type Bell,
  beatTimes,
  catWaves,
  dogWaves,
  normal,
  randomFrom,
  type StripPlan,
  syntheticLead,
} from '../../tools/synthetic-strip.js';

const DURATION = 24;
const RATES = [100, 250, 500, 1000, 2000] as const;

/** Finds the beats of a plan, none more, none less, each within 10 ms and a sample. */
function expectFound(plan: StripPlan): void {
  const found = detectBeats([syntheticLead(plan)]).map(({ time }) => time);
  const { missed, extra, pairs } = matchBeats(plan.beats, found, 0.05);
  expect({ missed, extra }, JSON.stringify({ ...plan, beats: plan.beats.length })).toEqual({
    missed: [],
    extra: [],
  });
  for (const pair of pairs) {
    expect(Math.abs(pair.found - pair.reference)).toBeLessThan(0.01 + 1 / plan.rate);
  }
}

const upsideDown = (waves: readonly Bell[]) => waves.map((w) => ({ ...w, height: -w.height }));

/** Each with the beats a minute and a way to make strips harder. */
const hearts: [string, number, (bpm: number, r?: number, t?: number) => Bell[], number][] = [
  ...[20, 40, 70, 120, 180].map((bpm) => ['dog', bpm, dogWaves, 1.5] as const),
  ...[120, 180, 220, 260].map((bpm) => ['cat', bpm, catWaves, 0.6] as const),
].map((row) => [...row]);

describe.each(hearts)('a %s at %i/min', (_species, bpm, waves, r) => {
  const planOf = (rate: number, seed: number, more: Partial<StripPlan> = {}): StripPlan => ({
    rate,
    duration: DURATION,
    beats: beatTimes(bpm, 0.4, DURATION - 0.4, 0.08, 31 * seed + bpm),
    waves: () => waves(bpm),
    noise: 0.02,
    seed,
    ...more,
  });
  const each = (more: (rate: number, seed: number) => Partial<StripPlan>) => {
    RATES.forEach((rate, i) => {
      const seed = 10 * i + bpm;
      expectFound(planOf(rate, seed, more(rate, seed)));
    });
  };

  it('is counted at all sampling rates', () => each(() => ({})));
  it('is counted with T of 0.6, 1 and 1.2 times R, up or down', () => {
    for (const t of [0.6, 1, 1.2, -1]) each(() => ({ waves: () => waves(bpm, r, t) }));
  });
  it('is counted upside down', () => each(() => ({ waves: () => upsideDown(waves(bpm, r, 0.8)) })));
  it('is counted on a wandering baseline', () =>
    each(() => ({ wander: { height: 1.5, period: 3.3 } })));
  it('is counted under mains of 50 and 60 Hz', () => {
    for (const frequency of [50, 60]) {
      // Sampled at 100 Hz, 60 Hz shows as 40 Hz, next to the QRS: less of it can be borne.
      each((rate) => ({ mains: { height: rate === 100 ? 0.1 * r : 0.3, frequency } }));
    }
  });
  it('is counted at a height of 0.15 mV', () =>
    each(() => ({ waves: () => waves(bpm, 0.15), noise: 0.008 })));
  it('is counted when every other beat is smaller and when height swings with the breath', () => {
    each(() => ({ waves: (i) => waves(bpm, r * (i % 2 ? 1 : 0.65)) }));
    each(() => ({ waves: (i) => waves(bpm, r * (1 + 0.35 * Math.sin(i * 0.9))) }));
  });
  it('is counted without noise', () => each(() => ({ noise: 0 })));
  it('is counted around a pause of 4 s, in which nothing is found', () =>
    each((_rate, seed) => {
      const all = beatTimes(bpm, 0.4, DURATION - 0.4, 0.08, seed);
      return { beats: all.filter((time) => time < 10 || time > 14) };
    }));
});

describe('rhythms of the demonstration generator', () => {
  // Fibrillation and standstill have no beats to find.
  const names = (Object.keys(RHYTHMS) as RhythmName[]).filter(
    (name) => name !== 'ventricular-fibrillation' && name !== 'asystole',
  );
  it.each(names)('%s: every beat in dog and cat, no P and no T among them', (name) => {
    for (const species of ['dog', 'cat'] as const) {
      for (const [rate, seed] of [
        [250, 5],
        [500, 6],
      ] as const) {
        const plan = RHYTHMS[name]({ species, duration: 30, seed });
        const random = randomFrom(seed);
        const samples = renderLead(plan, rate).map((x) => x + 0.01 * normal(random));
        const lead = { label: 'II', unit: 'mV', samplingRate: hertz(rate), samples };
        const isInside = (time: number) => time > 0.1 && time < 29.9;
        const truth = truthOf(plan).beats.map(({ time }) => time);
        const found = detectBeats([lead]).map(({ time }) => time);
        const { missed, extra } = matchBeats(truth.filter(isInside), found.filter(isInside), 0.08);
        expect({ missed, extra }, `${species} ${rate} Hz`).toEqual({ missed: [], extra: [] });
      }
    }
  });
});

describe('the R peak', () => {
  it('lies on the highest sample of the recorded lead, not of the filtered one', () => {
    // A steep S after R moves the peak of a filtered QRS.
    const waves = () => [
      { at: 0, height: 1, width: 0.008 },
      { at: 0.022, height: -0.9, width: 0.009 },
    ];
    const beats = beatTimes(80, 0.5, 19.5, 0.1, 3);
    const lead = syntheticLead({ rate: 1000, duration: 20, beats, waves, noise: 0.002 });
    for (const { time } of detectBeats([lead])) {
      const at = Math.round(time * 1000);
      const around = lead.samples.subarray(at - 40, at + 40);
      expect(lead.samples[at]).toBe(Math.max(...around));
    }
  });

  it('does not jump between R and S where both are alike', () => {
    const waves = (i: number) => [
      { at: 0, height: i % 2 ? 0.95 : 1.05, width: 0.008 },
      { at: 0.025, height: i % 2 ? -1.05 : -0.95, width: 0.008 },
    ];
    const beats = beatTimes(100, 0.5, 19.5);
    const found = detectBeats([syntheticLead({ rate: 500, duration: 20, beats, waves })]);
    const offsets = found.map(({ time }, i) => time - beats[i]!);
    expect(Math.max(...offsets) - Math.min(...offsets)).toBeLessThan(0.003);
  });

  it('stays in the strip whatever the samples are', () => {
    for (let seed = 1; seed < 30; seed++) {
      const random = randomFrom(seed);
      let x = 0;
      const samples = Float64Array.from({ length: 3000 }, () => {
        x += normal(random) * random() ** 4;
        return x;
      });
      const lead = { label: 'II', unit: 'mV', samplingRate: hertz(250), samples };
      for (const { time } of detectBeats([lead])) {
        expect(time).toBeGreaterThanOrEqual(0);
        expect(time).toBeLessThanOrEqual(12);
      }
    }
  });
});

it.each([0, 1, 5, 20])('finds nothing in %i samples and does not fail', (n) => {
  const samples = new Float64Array(n).map((_, i) => i % 3);
  expect(detectBeats([{ label: 'II', unit: 'mV', samplingRate: hertz(250), samples }])).toEqual([]);
  expect(detectBeats([])).toEqual([]);
});
