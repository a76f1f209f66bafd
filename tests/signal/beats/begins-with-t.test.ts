import { expect, it } from 'vitest';
import { detectBeats } from '../../../src/signal/beats/detect.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';

/** A cat's beat with a T as tall as its QRS. */
const BEAT: readonly Bell[] = [
  { at: -0.064, height: 0.03, width: 0.012 },
  { at: 0, height: 0.25, width: 0.007 },
  { at: 0.094, height: 0.25, width: 0.018 },
];
const INTERVAL = 0.352;

it.each([
  [125, -0.014],
  [125, -0.02],
  [250, -0.014],
  [500, -0.02],
])(
  'a strip at %d Hz that begins behind a QRS does not begin with a beat: its T is none',
  (rate, first) => {
    const times = Array.from({ length: 55 }, (_, i) => first + i * INTERVAL);
    const lead = syntheticLead({
      rate,
      duration: 19.5,
      beats: times,
      waves: () => [...BEAT],
      noise: 0.002,
      seed: 7,
    });
    const [found] = detectBeats([{ ...lead, label: 'II' }]);
    expect(found?.time).toBeCloseTo(first + INTERVAL, 2);
  },
);
