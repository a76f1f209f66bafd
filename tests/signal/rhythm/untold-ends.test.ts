import { expect, it } from 'vitest';
import type { MarkedBeat } from '../../../src/signal/marked-beat.js';
import { untoldEnds } from '../../../src/signal/rhythm/untold-ends.js';
import type { Seconds } from '../../../src/units/brands.js';

const beatAt = (time: number): MarkedBeat => ({
  time: time as Seconds,
  p: null,
  qrs: null,
  t: null,
  kind: 'sinus',
  confidence: 1,
});

/** Beats at 120/min from half a second on. */
const beatsFor = (seconds: number): MarkedBeat[] =>
  Array.from({ length: 2 * seconds }, (_, index) => beatAt(0.5 + index / 2));

it('leaves a day of even beats whole', () => {
  const day = 24 * 3600;
  expect(untoldEnds(beatsFor(day), [], { from: 0, to: day + 1 })).toEqual([]);
});

it('cuts where the next beat does not come', () => {
  expect(untoldEnds(beatsFor(20), [], { from: 0, to: 25 })).toEqual([20 + 0.3]);
});
