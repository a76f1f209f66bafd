import { describe, expect, it } from 'vitest';
import { detectBeats } from '../../../src/signal/beats/detect.js';
import { type Bell, catWaves, dogWaves, syntheticLead } from '../../tools/synthetic-strip.js';

/** A dog's beats at 100/min, 40 s, with an early one of a ventricle in place of some. */
const RR = 0.6;
const EARLY = [9, 27, 44, 58];
const beats = Array.from({ length: 65 }, (_, i) => 0.3 + RR * (EARLY.includes(i) ? i - 0.4 : i));

/** A broad wave and its T, heights in mV. */
const broad = (height: number, t: number): Bell[] => [
  { at: 0, height, width: 0.02 },
  { at: 0.13, height: t, width: 0.03 },
];

const strip = (ofVentricle: readonly Bell[], sinus: readonly Bell[] = dogWaves(100)) =>
  syntheticLead({
    rate: 250,
    duration: 40,
    beats,
    waves: (i) => (EARLY.includes(i) ? ofVentricle : sinus),
    noise: 0.006,
  });

const missed = (found: readonly { readonly time: number }[], times: readonly number[]) =>
  times.filter((at) => !found.some(({ time }) => Math.abs(time - at) < 0.06));

describe('a broad early beat of a ventricle', () => {
  it('is found though it is little more than half as tall as the QRS of the others', () => {
    expect(missed(detectBeats([strip(broad(0.9, -0.3))]), beats)).toEqual([]);
  });

  it('is no P for the look that its tip has on the one lead on which it is low', () => {
    const lower = (bells: readonly Bell[], by: number) =>
      bells.map((bell) => ({ ...bell, height: by * bell.height }));
    const pLike: Bell[] = [{ at: 0, height: 0.25, width: 0.014 }];
    const found = detectBeats([
      strip(broad(-1.7, 0.8)),
      { ...strip(pLike, lower(dogWaves(100), 0.8)), label: 'III' },
    ]);
    expect(missed(found, beats)).toEqual([]);
  });

  it('is found in a run of three as tall as the QRS of the others', () => {
    const run = [12, 13, 14];
    const times = Array.from({ length: 40 }, (_, i) => 0.3 + 0.38 * i);
    const lead = syntheticLead({
      rate: 500,
      duration: 16,
      beats: times,
      waves: (i) =>
        run.includes(i)
          ? [
              { at: 0, height: 0.7, width: 0.026 },
              { at: 0.14, height: -0.15, width: 0.03 },
            ]
          : [{ at: -0.07, height: 0.22, width: 0.014 }, ...catWaves(158).slice(1)],
    });
    expect(missed(detectBeats([lead]), times)).toEqual([]);
  });
});

describe('a long pause', () => {
  it.each([
    ['the P that no QRS follows', dogWaves(100).slice(0, 1)],
    ['nothing but the T before it', []],
  ])('holds no beat where it shows %s', (_, instead) => {
    const times = Array.from({ length: 65 }, (__, i) => 0.3 + RR * i);
    for (const t of [0.2, 0.5, 0.9]) {
      const lead = syntheticLead({
        rate: 250,
        duration: 40,
        beats: times,
        waves: (i) => (EARLY.includes(i) ? instead : dogWaves(100, 1.5, t)),
        noise: 0.006,
      });
      expect(detectBeats([lead])).toHaveLength(times.length - EARLY.length);
    }
  });
});
