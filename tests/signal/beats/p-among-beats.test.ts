import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { detectBeats } from '../../../src/signal/beats/detect.js';
import type { Channel } from '../../../src/signal/waveform.js';
import { kilogram } from '../../../src/units/brands.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';

/** A tall P on a lead of low voltage: a third to a half of R, which is within both ranges (P to 0.2 mV in a cat, R to 0.9). */
const P: Bell = { at: -0.14, height: 0.13, width: 0.0085 };
const QRS: readonly Bell[] = [
  { at: -0.009, height: -0.03, width: 0.003 },
  { at: 0, height: 0.26, width: 0.0045 },
  { at: 0.009, height: -0.04, width: 0.003 },
];
const T: Bell = { at: 0.13, height: -0.06, width: 0.017 };
const RATE = 500;

/** Atria at 150 a minute over half a minute, of whose waves some are followed. */
function strip(isFollowed: (atrial: number) => boolean): { lead: Channel; rTimes: number[] } {
  const all = Array.from({ length: 74 }, (_, i) => 0.4 + i * 0.4);
  const lead = syntheticLead({
    rate: RATE,
    duration: 30,
    beats: all,
    waves: (i) => (isFollowed(i) ? [P, ...QRS, T] : [P]),
    noise: 0.003,
    wander: { height: 0.03, period: 4 },
  });
  return { lead, rTimes: all.filter((_, i) => isFollowed(i)) };
}

const named = (lead: Channel, species: 'dog' | 'cat' = 'cat'): readonly string[] =>
  analyseStrip([lead], {
    patient: { species, weight: kilogram(4), ageYears: null, anesthetised: false },
    breath: {},
  }).rhythms.map(({ name }) => name);

/** Largest distance of a beat from the R that it stands for, s; infinite where they are not as many. */
function farthest(lead: Channel, rTimes: readonly number[]): number {
  const found = detectBeats([lead]);
  if (found.length !== rTimes.length) return Number.POSITIVE_INFINITY;
  return Math.max(...found.map(({ time }, i) => Math.abs(time - rTimes[i]!)));
}

describe('a P that is nearly as steep as a low, narrow QRS', () => {
  it('is no beat before its QRS', () => {
    const { lead, rTimes } = strip(() => true);
    expect(farthest(lead, rTimes)).toBeLessThan(0.01);
    expect(named(lead)).not.toContain('atrial fibrillation');
  });

  it('is no beat where it is not followed: every fourth', () => {
    const { lead, rTimes } = strip((i) => i % 4 !== 3);
    expect(farthest(lead, rTimes)).toBeLessThan(0.01);
    expect(named(lead)).toEqual(['second-degree atrioventricular block, constant PR']);
  });

  it('is no beat where it is not followed: three of four', () => {
    const { lead, rTimes } = strip((i) => i % 4 === 0);
    expect(farthest(lead, rTimes)).toBeLessThan(0.01);
    expect(named(lead)).toEqual(['second-degree atrioventricular block, high-grade']);
  });

  it('is no beat where it marches by itself beside an escape rhythm', () => {
    const escapes = Array.from({ length: 26 }, (_, i) => 0.7 + i * 1.13);
    const atria = Array.from({ length: 72 }, (_, i) => 0.35 + i * 0.41);
    const beats = [...escapes, ...atria].sort((a, b) => a - b);
    const tall: readonly Bell[] = [
      { at: 0, height: 0.5, width: 0.0075 },
      { at: 0.02, height: -0.08, width: 0.006 },
      { at: 0.19, height: -0.09, width: 0.022 },
    ];
    const lead = syntheticLead({
      rate: RATE,
      duration: 30,
      beats,
      waves: (i) => (escapes.includes(beats[i]!) ? tall : [{ at: 0, height: 0.22, width: 0.0085 }]),
      noise: 0.003,
    });
    expect(farthest(lead, escapes)).toBeLessThan(0.015);
    expect(named(lead, 'dog')).toEqual(['third-degree atrioventricular block']);
  });

  it('the own beats stay beats beside tall early ones from a ventricle, and where a lead shows them small', () => {
    const early = [6, 13, 15, 22, 30, 33, 41];
    const beats = Array.from(
      { length: 50 },
      (_, i) => 0.5 + i * 0.4 - (early.includes(i) ? 0.12 : 0),
    );
    const own: readonly Bell[] = [
      { at: -0.09, height: 0.2, width: 0.012 },
      { at: 0, height: 0.9, width: 0.008 },
      { at: 0.12, height: -0.1, width: 0.02 },
    ];
    const wide: readonly Bell[] = [
      { at: 0, height: 1.8, width: 0.016 },
      { at: 0.13, height: -0.8, width: 0.025 },
    ];
    const leadOf = (scale: (i: number, at: number) => number, label: string): Channel => ({
      ...syntheticLead({
        rate: 256,
        duration: 21,
        beats,
        waves: (i) =>
          (early.includes(i) ? wide : own).map((bell) => ({
            ...bell,
            height: bell.height * scale(i, bell.at),
          })),
        noise: 0.004,
      }),
      label,
    });
    // On lead I the QRS swings around nothing with the breath, and P is as tall as it.
    const small = leadOf((i, at) => (at < 0 ? 0.5 : 0.15 * Math.sin(i * 0.7)), 'I');
    const found = detectBeats([leadOf(() => 1, 'II'), small]).map(({ time }) => time);
    expect(found).toHaveLength(beats.length);
  });

  it('a beat as low as that is still a beat: every second R half as tall', () => {
    const beats = Array.from({ length: 70 }, (_, i) => 0.4 + i * 0.4);
    const lead = syntheticLead({
      rate: RATE,
      duration: 28.5,
      beats,
      waves: (i) =>
        [{ ...P, at: -0.08 }, ...QRS, T].map((bell) => ({
          ...bell,
          height: bell.height * (i % 2 ? 0.5 : 1),
        })),
      noise: 0.003,
    });
    expect(farthest(lead, beats)).toBeLessThan(0.01);
  });
});

describe('P waves of a cat nearly as tall as a low QRS', () => {
  const tall: Bell = { at: -0.07, height: 0.2, width: 0.0085 };
  const blocked = (cycle: number): Channel => {
    const atria = Array.from({ length: Math.floor(20 / cycle) }, (_, i) => 0.5 + i * cycle);
    return syntheticLead({
      rate: RATE,
      duration: 20.5,
      beats: atria,
      waves: (i) => (i % 3 === 0 ? [tall, ...QRS, T] : [tall]),
      noise: 0.003,
    });
  };

  it.each([0.3, 0.34, 0.4])(
    'make no early beats of a sinus rhythm where two of three are not followed, %d s apart',
    (cycle) => {
      expect(named(blocked(cycle)).filter((name) => name.startsWith('sinus'))).toEqual([]);
    },
  );
});
