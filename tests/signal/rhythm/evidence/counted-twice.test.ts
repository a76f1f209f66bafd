import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../../src/signal/analyse.js';
import type { Wave } from '../../../../src/signal/marked-beat.js';
import { countedTwice } from '../../../../src/signal/rhythm/evidence/counted-twice.js';
import { millivolt, seconds } from '../../../../src/units/brands.js';
import { type Bell, dogWaves, syntheticLead } from '../../../tools/synthetic-strip.js';
import { patientOf } from '../strips.js';

/** A wide, tall beat of a ventricle, its T the other way. */
const WIDE: readonly Bell[] = [
  { at: 0, height: 1.9, width: 0.022 },
  { at: 0.045, height: -0.3, width: 0.015 },
  { at: 0.2, height: -0.6, width: 0.03 },
];

/** Sinus beats at 100 a minute; at every seventh something stands on T, 0.19 s after R, and the sinus beats go on in time. */
function read(onT: readonly Bell[]) {
  const own = Array.from({ length: 66 }, (_, i) => 0.4 + 0.6 * i + 0.004 * Math.sin(5 * i));
  const early = own.filter((_, i) => i % 7 === 5).map((time) => time + 0.19);
  const beats = [...own, ...early].sort((a, b) => a - b);
  const isEarly = new Set(early);
  const lead = syntheticLead({
    rate: 400,
    duration: 40,
    beats,
    waves: (i) => (isEarly.has(beats[i]!) ? onT : dogWaves(100)),
    noise: 0.004,
  });
  return { early, ...analyseStrip([lead], { patient: patientOf('dog'), breath: {} }) };
}

// Common practice: a ventricular premature beat that falls on T may start a fibrillation, and is told as what it is.
describe('a wave where T stands', () => {
  it('is a premature beat where it is taller by far than the T of the others', () => {
    const { early, rhythms } = read(WIDE);
    const told = rhythms
      .flatMap(({ within }) => within)
      .filter(({ name }) => name === 'ventricular premature complexes')
      .flatMap(({ beats }) => beats);
    for (const time of early) {
      expect(
        told.some((each) => Math.abs(each - time) < 0.05),
        `${time} s`,
      ).toBe(true);
    }
  });

  it('is none where it is no taller than they are', () => {
    const { rhythms } = read([{ at: 0, height: 0.2, width: 0.02 }]);
    const told = rhythms.flatMap(({ within }) => within.map(({ name }) => name));
    expect(told).not.toContain('ventricular premature complexes');
  });

  // QT of a cat reaches 0.2 s: Small Animal Internal Medicine, 6th ed., Table 2.4.
  it('may be the late T of a beat that has no other, in a slow cat, unless a T follows it', () => {
    const wave = { onset: seconds(0), peak: seconds(0), end: seconds(0) };
    const t = { ...wave, height: millivolt(0.1), confidence: 1 };
    const placesOf = (later: number, second: Wave | null) => {
      const beats = Array.from({ length: 20 }, (_, i) => ({
        time: seconds(0.84 * (i >> 1) + (i % 2) * later),
        t: i % 2 === 1 ? second : null,
      }));
      const family = (first: number, steepness: number) => ({
        members: beats.flatMap((_, i) => (i % 2 === first ? [i] : [])),
        qrsDuration: seconds(0.03),
        qrsAtLeast: null,
        steepness,
        height: 0.4,
      });
      const shapes = {
        families: [family(0, 75), family(1, 40)],
        of: beats.map((_, i) => i % 2),
        off: () => null,
      };
      return countedTwice(beats, shapes, patientOf('cat'));
    };
    expect(placesOf(0.17, null)).toHaveLength(10);
    expect(placesOf(0.19, null)).toEqual([]);
    expect(placesOf(0.17, t)).toEqual([]);
  });
});
