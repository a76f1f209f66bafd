import { describe, expect, it } from 'vitest';
import type { Species } from '../../../src/record/vocabulary.js';
import type { BeatWaves, Patient, Wave } from '../../../src/signal/marked-beat.js';
import { measure } from '../../../src/signal/measures/measure.js';
import type { Channel } from '../../../src/signal/waveform.js';
import { hertz, kilogram, millivolt, seconds } from '../../../src/units/brands.js';

const RATE = 1000;

const patient = (species: Species, weight: number): Patient => ({
  species,
  weight: kilogram(weight),
  ageYears: 5,
  anesthetised: true,
});

function wave(onset: number, peak: number, end: number, confidence = 1): Wave {
  return {
    onset: seconds(onset),
    peak: seconds(peak),
    end: seconds(end),
    height: millivolt(Number.NaN),
    confidence,
  };
}

/** Beats drawn as boxes, so that every figure can be worked out by hand. */
interface Boxes {
  readonly p: number;
  readonly r: number;
  readonly s: number;
  readonly st: number;
  readonly t: number;
}

/** mV: baseline 0.3; P for 40 ms, 60 ms rest, R for 25 and S for 15 ms, ST for 60, T for 80 ms. */
function lead(label: string, { p, r, s, st, t }: Boxes, beats: readonly number[]): Channel {
  const samples = new Float64Array(RATE * 10).fill(0.3);
  for (const beat of beats) {
    const start = Math.round(beat * RATE);
    const draw = (from: number, to: number, height: number) => {
      for (let i = start + from; i < start + to; i++) samples[i]! += height;
    };
    draw(-110, -70, p);
    draw(-10, 15, r);
    draw(15, 30, s);
    draw(30, 90, st);
    draw(90, 170, t);
  }
  return { label, unit: 'mV', samplingRate: hertz(RATE), samples };
}

const beatsAt = (times: readonly number[], confidence = 1): BeatWaves[] =>
  times.map((time) => ({
    time: seconds(time),
    p: wave(time - 0.11, time - 0.09, time - 0.07, confidence),
    qrs: wave(time - 0.01, time, time + 0.03, confidence),
    t: wave(time + 0.09, time + 0.13, time + 0.17, confidence),
  }));

const EVEN = [1, 1.512, 2.024, 2.536, 3.048, 3.56];
const II: Boxes = { p: 0.2, r: 1.5, s: -0.25, st: -0.08, t: -0.45 };

describe('a dog of 20 kg, drawn in boxes', () => {
  const all = measure(beatsAt(EVEN), [lead('ECG II', II, EVEN)], patient('dog', 20));

  it('has the intervals that were drawn', () => {
    expect(all.pDuration.value).toBeCloseTo(0.04, 9);
    expect(all.pr.value).toBeCloseTo(0.1, 9);
    expect(all.qrs.value).toBeCloseTo(0.04, 9);
    expect(all.qt.value).toBeCloseTo(0.18, 9);
    expect(all.qt.count).toBe(6);
  });

  it('corrects QT by hand: RR 0.512 s, whose cube root is 0.8', () => {
    expect(all.qtcFridericia.value).toBeCloseTo(0.18 / 0.8, 9);
    expect(all.qtcVanDeWater.value).toBeCloseTo(0.18 + 0.087 * 0.488, 9);
    // The first beat has no interval before it.
    expect(all.qtcFridericia.count).toBe(5);
    expect(all.qtcFridericia.verdict).toBe('no range');
  });

  it('reads heights from the rest before the wave, not from zero', () => {
    expect(all.pHeight.value).toBeCloseTo(0.2, 9);
    expect(all.rHeight.value).toBeCloseTo(1.5, 9);
    expect(all.tHeight.value).toBeCloseTo(-0.45, 9);
    expect(all.st.value).toBeCloseTo(-0.08, 9);
    expect(all.tToR.value).toBeCloseTo(0.3, 9);
  });

  it('judges by Table 2.4: T above a quarter of R, the rest within', () => {
    expect(all.tToR.verdict).toBe('above');
    for (const m of [all.pDuration, all.pHeight, all.pr, all.qrs, all.rHeight, all.qt, all.st]) {
      expect(m.verdict).toBe('within');
      expect(m.range?.of).toBe('awake animals');
      expect(m.range?.source).toContain('Table 2.4');
    }
  });

  it('does not tell an axis from one lead', () => {
    expect(all.axis.value).toBeNull();
    expect(all.axis.because).toBe('needs lead I and one of II, III and aVF');
  });
});

describe('ranges', () => {
  const strip = [lead('II', { ...II, r: 2.7 }, EVEN)];
  const verdict = (species: Species, weight: number) =>
    measure(beatsAt(EVEN), strip, patient(species, weight)).rHeight.verdict;

  it('call an R of 2.7 mV high in a small dog and a cat, and not in a large dog (Table 2.4)', () => {
    expect(verdict('dog', 4)).toBe('above');
    expect(verdict('dog', 35)).toBe('within');
    expect(verdict('cat', 4)).toBe('above');
  });

  it('take the wider limit where the source does not say which is meant', () => {
    const { range } = measure(beatsAt(EVEN), strip, patient('dog', 15)).rHeight;
    expect(range?.high).toBe(3);
    expect(range?.note).toContain('wider limit');
  });

  it('do not exist for rabbits and ferrets, which are measured and not judged', () => {
    for (const species of ['rabbit', 'ferret'] as const) {
      const all = measure(beatsAt(EVEN), strip, patient(species, 1.2));
      expect(all.pr.value).toBeCloseTo(0.1, 9);
      for (const m of Object.values(all)) expect(m.verdict).toBe('no range');
    }
  });

  it('judge heights on lead II alone', () => {
    const all = measure(beatsAt(EVEN), [lead('V3', { ...II, r: 4 }, EVEN)], patient('dog', 4));
    expect(all.rHeight.value).toBeCloseTo(4, 9);
    expect(all.rHeight.lead).toBe('V3');
    expect(all.rHeight.verdict).toBe('no range');
    expect(all.pr.verdict).toBe('within');
  });

  it('find a cat PR of 0.1 s above 0.09 s, and Van de Water no rule for cats', () => {
    const all = measure(beatsAt(EVEN), strip, patient('cat', 4));
    expect(all.pr.verdict).toBe('above');
    expect(all.qtcVanDeWater.because).toBe('the formula is for dogs');
  });
});

describe('what cannot be measured', () => {
  const strip = [lead('II', II, EVEN)];

  it('says that no beat shows a P', () => {
    const beats = beatsAt(EVEN).map((beat) => ({ ...beat, p: null }));
    const all = measure(beats, strip, patient('dog', 20));
    for (const m of [all.pr, all.pDuration, all.pHeight]) {
      expect(m.value).toBeNull();
      expect(m.because).toBe('no beat shows this wave');
    }
    expect(all.qt.value).not.toBeNull();
  });

  it('says that waves are too unsure', () => {
    const all = measure(beatsAt(EVEN, 0.2), strip, patient('dog', 20));
    expect(all.pr.because).toBe('too noisy');
  });

  it('asks for three beats', () => {
    const two = measure(beatsAt(EVEN.slice(0, 2)), strip, patient('dog', 20));
    expect(two.qrs.because).toBe('too few beats');
    expect(measure(beatsAt(EVEN.slice(0, 3)), strip, patient('dog', 20)).qrs.count).toBe(3);
  });

  it('says so where there is no beat and no lead at all', () => {
    const none = measure([], [], patient('dog', 20));
    for (const m of Object.values(none)) expect(m.value).toBeNull();
  });

  it('leaves out heights on samples that are missing, and keeps the rest', () => {
    const holed = lead('II', II, EVEN);
    holed.samples.fill(Number.NaN, 900, 1200);
    expect(measure(beatsAt(EVEN), [holed], patient('dog', 20)).rHeight.count).toBe(5);
  });

  it('corrects no QT across a beat that is missing', () => {
    const without = EVEN.filter((_, k) => k !== 2);
    const all = measure(beatsAt(without), [lead('II', II, EVEN)], patient('dog', 20));
    expect(all.qtcFridericia.value).toBeCloseTo(0.225, 9);
    expect(all.qtcFridericia.count).toBe(3);
  });
});

describe('the mean electrical axis', () => {
  const flat: Boxes = { p: 0, r: 0, s: 0, st: 0, t: 0 };
  const axisOf = (leads: readonly (readonly [string, number])[], species: Species = 'dog') =>
    measure(
      beatsAt(EVEN),
      leads.map(([label, r]) => lead(label, { ...flat, r }, EVEN)),
      patient(species, 20),
    ).axis;

  it('is the same from I and II, I and III, I and aVF, for a heart of 2 mV at 60 degrees', () => {
    // Projections: I = 2 cos 60, II = 2 cos 0, III = 2 cos 60, aVF = (II + III) / 2.
    expect(
      axisOf([
        ['I', 1],
        ['II', 2],
      ]).value,
    ).toBeCloseTo(60, 6);
    expect(
      axisOf([
        ['I', 1],
        ['III', 1],
      ]).value,
    ).toBeCloseTo(60, 6);
    expect(
      axisOf([
        ['I', 1],
        ['aVF', 1.5],
      ]).value,
    ).toBeCloseTo(60, 6);
  });

  it('knows all four quarters', () => {
    expect(
      axisOf([
        ['I', 0],
        ['aVF', 1],
      ]).value,
    ).toBeCloseTo(90, 6);
    expect(
      axisOf([
        ['I', -1],
        ['aVF', Math.sqrt(3) / 2],
      ]).value,
    ).toBeCloseTo(135, 6);
    expect(
      axisOf([
        ['I', -1],
        ['aVF', -Math.sqrt(3) / 2],
      ]).value,
    ).toBeCloseTo(-135, 6);
    expect(
      axisOf([
        ['I', 1],
        ['aVF', -Math.sqrt(3) / 2],
      ]).value,
    ).toBeCloseTo(-45, 6);
  });

  it('is judged: 120 degrees is above for a dog and within for a cat (Table 2.4)', () => {
    // At 120 degrees: I = -0.5, III = 1.
    expect(
      axisOf([
        ['I', -0.5],
        ['III', 1],
      ]).value,
    ).toBeCloseTo(120, 6);
    expect(
      axisOf([
        ['I', -0.5],
        ['III', 1],
      ]).verdict,
    ).toBe('above');
    expect(
      axisOf(
        [
          ['I', -0.5],
          ['III', 1],
        ],
        'cat',
      ).verdict,
    ).toBe('within');
  });

  it('is not told where up and down parts cancel', () => {
    const even: Boxes = { ...flat, r: 0.6, s: -1 };
    const leads = [lead('I', even, EVEN), lead('aVF', even, EVEN)];
    const { value, because } = measure(beatsAt(EVEN), leads, patient('dog', 20)).axis;
    expect(value).toBeNull();
    expect(because).toBe('no main direction');
  });
});
