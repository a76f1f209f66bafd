import { expect, it } from 'vitest';
import type { Bell } from '../../tools/synthetic-strip.js';
import { type BellBeat, toldBells } from '../told-bells.js';

const P: Bell = { at: 0, height: 0.22, width: 0.013 };
/** Of a ventricle: as gentle as P is. */
const ESCAPE: readonly Bell[] = [
  { at: 0, height: -1.1, width: 0.03 },
  { at: 0.19, height: 0.5, width: 0.045 },
];
/** As low as P, with its own P and T. */
const LOW: readonly Bell[] = [
  { at: -0.1, height: 0.04, width: 0.012 },
  { at: 0, height: 0.22, width: 0.009 },
  { at: 0.15, height: 0.05, width: 0.025 },
];

const every = (interval: number, from: number, to: number, waves: readonly Bell[]): BellBeat[] =>
  Array.from(
    { length: Math.floor((to - from) / interval) },
    (_, i): BellBeat => [from + i * interval + 0.004 * (i % 3), waves],
  );

it('P waves that march through the gentle beats of a ventricle are no beats', () => {
  const escapes = every(1.67, 0.6, 20, ESCAPE);
  const found = toldBells([...every(0.485, 0.2, 20, [P]), ...escapes], 20);
  // One at either end may have too few beats around it to be told.
  expect(found.beats.length).toBeLessThanOrEqual(escapes.length + 2);
  expect(found.rhythms.map(({ name }) => name)).toEqual(['third-degree atrioventricular block']);
});

it('low beats among early gentle ones of a ventricle stay beats', () => {
  const cycle = 0.5;
  const beats = Array.from({ length: 40 }, (_, i): BellBeat => {
    const due = 0.4 + i * cycle + 0.004 * (i % 3);
    // Every fourth is replaced by an early one, with the pause that follows.
    return i % 4 === 3 ? [due - 0.2, ESCAPE] : [due, LOW];
  });
  const found = toldBells(beats, 20.4);
  expect(found.beats.length).toBeGreaterThanOrEqual(38);
  expect(found.rhythms.map(({ name }) => name)).not.toContain(
    'third-degree atrioventricular block',
  );
});
