import { describe, expect, it } from 'vitest';
import type { BreathEvidence } from '../../../src/signal/breath/breaths.js';
import { findBreaths } from '../../../src/signal/breath/find-breaths.js';
import { statedBreaths } from '../../../src/signal/breath/stated-breaths.js';
import { seconds } from '../../../src/units/brands.js';
import type { Breath } from '../../synth/beat-plan.js';
import { capnogram } from '../../synth/capnogram.js';
import { type Random, randomFrom } from '../../synth/random.js';
import { renderLead } from '../../synth/render.js';
import { ventilatorBreaths } from '../../synth/rhythms/setting.js';
import { sinus } from '../../synth/rhythms/sinus.js';
import { beatsOf, channel, ownBreaths } from './strips.js';

const DURATION = 60;
const remark = (onset: number, text: string) => ({ onset: seconds(onset), duration: null, text });

const co2 = (
  breaths: readonly Breath[],
  {
    random,
    noise = 0,
    rate = 25,
    unit = 'mmHg',
  }: { random?: Random; noise?: number; rate?: number; unit?: string } = {},
) => {
  const clean = capnogram(breaths, DURATION, rate, { endTidal: 41, inspired: 1 });
  const noisy = random ? clean.map((value) => value + noise * random.gaussian()) : clean;
  return channel('CO2', unit, rate, unit === 'kPa' ? noisy.map((value) => value / 7.50062) : noisy);
};

/** 1 while gas goes in, falling back over what is left of the breath. */
const lungs = (breaths: readonly Breath[], rate: number, height: number): Float64Array =>
  Float64Array.from({ length: DURATION * rate }, (_, i) => {
    const time = i / rate;
    const breath = breaths.findLast((candidate) => candidate.time <= time);
    if (!breath) return 0;
    const since = time - breath.time;
    return since < breath.inspiration
      ? (height * since) / breath.inspiration
      : height * Math.exp(-(since - breath.inspiration) / (0.4 * breath.inspiration));
  });

function worstError(found: readonly number[] | null, truth: readonly Breath[]): number {
  const seen = truth.filter(({ time }) => time > 0.3 && time < DURATION - 0.5);
  const times = found ?? [];
  expect(Math.abs(times.length - seen.length)).toBeLessThanOrEqual(1);
  return Math.max(
    ...seen.map(({ time }) => Math.min(...times.map((other) => Math.abs(other - time)))),
  );
}

describe('breaths that are stated', () => {
  it('takes remarks that name one breath and no other remark', () => {
    const remarks = [
      remark(1, 'breath'),
      remark(7, 'Breath 2'),
      remark(13, 'start of inspiration'),
      remark(19, 'inspiration begins'),
      remark(25, 'inspiración'),
      remark(2, 'ventilator on 10/min'),
      remark(3, 'end of inspiration'),
      remark(4, 'expiration'),
      remark(5, 'breath held'),
      remark(6, 'no breath'),
      remark(7, 'breathing by itself'),
    ];
    expect(statedBreaths(remarks)).toEqual([1, 7, 13, 19, 25]);
  });

  it('come before every channel, and the record before the file', () => {
    const evidence: BreathEvidence = {
      stated: [14, 2, 8],
      annotations: [1, 6, 11].map((onset) => remark(onset, 'breath')),
      channels: [co2(ventilatorBreaths(15, DURATION))],
      ventilatorRate: 20,
    };
    expect(findBreaths(evidence)).toMatchObject({ source: 'stated', times: [2, 8, 14], period: 6 });
    expect(findBreaths({ ...evidence, stated: [] })).toMatchObject({ source: 'stated', period: 5 });
    const lone = { ...evidence, stated: [], annotations: [remark(1, 'breath')] };
    expect(findBreaths(lone).source).toBe('capnogram');
    expect(findBreaths({ ...lone, channels: [] })).toMatchObject({
      source: 'ventilator rate',
      times: null,
      period: 3,
      fromInspiration: false,
    });
    expect(findBreaths({})).toMatchObject({ source: null, times: null, period: null });
  });
});

describe('a capnogram', () => {
  it('gives each breath of a ventilator to 20 ms', () => {
    for (const rate of [6, 10, 14, 20]) {
      const breaths = ventilatorBreaths(rate, DURATION);
      const found = findBreaths({ channels: [co2(breaths)] });
      expect(found.source).toBe('capnogram');
      expect(worstError(found.times, breaths)).toBeLessThan(0.02);
      expect(found.period).toBeCloseTo(60 / rate, 1);
    }
  });

  it('gives each breath of a patient that breathes by itself, through noise, to 100 ms', () => {
    for (let seed = 1; seed <= 30; seed += 1) {
      const random = randomFrom(seed);
      const breaths = ownBreaths(random.between(8, 20), DURATION, random);
      const found = findBreaths({ channels: [co2(breaths, { random, noise: 1 })] });
      expect(worstError(found.times, breaths)).toBeLessThan(0.1);
    }
  });

  it('reads kPa, and nothing from a flat line, an unknown unit or a trend of one value a second', () => {
    const breaths = ventilatorBreaths(12, DURATION);
    expect(findBreaths({ channels: [co2(breaths, { unit: 'kPa' })] }).source).toBe('capnogram');
    expect(findBreaths({ channels: [co2(breaths, { unit: 'counts' })] }).source).toBeNull();
    expect(findBreaths({ channels: [co2(breaths, { rate: 1 })] }).source).toBeNull();
    const air = channel('CO2', 'mmHg', 25, new Float64Array(1500).fill(0.3));
    expect(findBreaths({ channels: [air] }).source).toBeNull();
  });

  it('tells no breath across a gap', () => {
    const breaths = ventilatorBreaths(10, DURATION);
    const gap = co2(breaths);
    gap.samples.fill(Number.NaN, 20 * 25, 33 * 25);
    const times = findBreaths({ channels: [gap] }).times as number[];
    expect(times.filter((time) => time > 20 && time < 33)).toEqual([]);
    expect(times.length).toBeGreaterThanOrEqual(7);
  });
});

describe('other breath channels', () => {
  it('gives the breaths of an airway pressure to 100 ms', () => {
    const breaths = ventilatorBreaths(11, DURATION);
    const wave = lungs(breaths, 50, 12).map((value) => value + 3);
    const found = findBreaths({ channels: [channel('Airway pressure', 'cmH2O', 50, wave)] });
    expect(found.source).toBe('pressure');
    expect(worstError(found.times, breaths)).toBeLessThan(0.1);
  });

  it('gives the breaths of a drifting impedance to 300 ms', () => {
    const random = randomFrom(5);
    const breaths = ownBreaths(14, DURATION, random);
    const wave = lungs(breaths, 50, 1).map(
      (value, i) => value + 0.03 * random.gaussian() + 0.02 * (i / 50),
    );
    const found = findBreaths({ channels: [channel('Impedance', 'Ohm', 50, wave)] });
    expect(found.source).toBe('impedance');
    expect(worstError(found.times, breaths)).toBeLessThan(0.3);
  });
});

describe('the breath in the ECG itself', () => {
  const strip = (seed: number, breathing: number, swing: number) => {
    const random = randomFrom(seed);
    const plan = sinus({ species: 'dog', duration: DURATION, seed, rate: random.between(70, 130) });
    const samples = renderLead(plan, 250).map((value, i) => {
      const turn = Math.sin((2 * Math.PI * breathing * i) / 250 / 60);
      return value * (1 + swing * turn) + swing * turn + 0.01 * random.gaussian();
    });
    return { lead: channel('II', 'mV', 250, samples), beats: beatsOf(plan) };
  };

  it('is read to 0.5 breaths/min where baseline and R both swing with it', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const breathing = randomFrom(seed + 500).between(8, 20);
      const found = findBreaths({ ecg: strip(seed, breathing, 0.06) });
      expect(found).toMatchObject({ source: 'ecg', fromInspiration: false });
      expect(Math.abs(60 / (found.period as number) - breathing)).toBeLessThan(0.5);
      expect(found.confidence).toBeLessThan(0.5);
    }
  });

  it('is not read into a lead that does not show it, in at least 95 of 100 strips', () => {
    let told = 0;
    for (let seed = 1; seed <= 100; seed += 1) {
      if (findBreaths({ ecg: strip(seed, 12, 0) }).source !== null) told += 1;
    }
    expect(told).toBeLessThanOrEqual(5);
  });
});
