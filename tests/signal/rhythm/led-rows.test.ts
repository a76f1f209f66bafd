import { expect, it } from 'vitest';
import type { MarkedBeat } from '../../../src/signal/marked-beat.js';
import { ledEdges } from '../../../src/signal/rhythm/led-rows.js';
import { millivolt, seconds } from '../../../src/units/brands.js';
import { patientOf } from './strips.js';

const FIBRILLATING = [0.42, 0.3, 0.55, 0.38, 0.29, 0.47, 0.33, 0.58, 0.41, 0.31, 0.5, 0.36];

it('fibrillation that shows what looks like P before its last beats reaches to the pause that ends it', () => {
  const intervals = [...FIBRILLATING, ...FIBRILLATING, 0.95, ...new Array<number>(14).fill(0.79)];
  let time = 0.4;
  const times = [time, ...intervals.map((interval) => (time += interval))];
  const end = 2 * FIBRILLATING.length;
  const beats = times.map((at, i): MarkedBeat => {
    const isLed = i > end || (i > end - 8 && i % 4 !== 0);
    const p = {
      onset: seconds(at - 0.1),
      peak: seconds(at - 0.08),
      end: seconds(at - 0.06),
      height: millivolt(0.1),
      confidence: 0.8,
    };
    const qrs = {
      onset: seconds(at - 0.02),
      peak: seconds(at),
      end: seconds(at + 0.02),
      height: millivolt(1),
      confidence: 1,
    };
    return {
      time: seconds(at),
      p: isLed ? p : null,
      qrs,
      t: null,
      kind: 'unclassified',
      confidence: 0,
    };
  });
  const [edge, ...others] = ledEdges(beats, patientOf('dog'));
  expect(others).toEqual([]);
  expect(edge).toBeGreaterThan(times[end]!);
  expect(edge).toBeLessThan(times[end + 1]!);
});
