import { describe, expect, it } from 'vitest';
import type { Bell } from '../../tools/synthetic-strip.js';
import { type BellBeat, names, toldBells } from '../told-bells.js';

const P: Bell = { at: -0.1, height: 0.2, width: 0.01 };
const NARROW: readonly Bell[] = [
  { at: 0, height: 1.4, width: 0.0055 },
  { at: 0.013, height: -0.25, width: 0.005 },
  { at: 0.15, height: 0.25, width: 0.022 },
];
const WIDE: readonly Bell[] = [
  { at: 0, height: -1.9, width: 0.022 },
  { at: 0.16, height: 0.7, width: 0.035 },
];

describe('each second beat from a ventricle', () => {
  it('is told within sinus rhythm where the strip holds more of them than of the others', () => {
    const beats = Array.from({ length: 10 }, (_, i): BellBeat[] => {
      const at = 0.35 + 1.05 * i + 0.01 * (i % 3);
      const wide: BellBeat = [at, WIDE];
      // The last one has no narrow beat behind it.
      return i === 9 ? [wide] : [wide, [at + 0.68, [P, ...NARROW]]];
    });
    const found = toldBells(beats.flat(), 10.3);
    expect(names(found)).toEqual(['sinus rhythm']);
    const told = found.rhythms[0]!.within.find(
      ({ name }) => name === 'ventricular premature complexes',
    );
    expect(told?.beats.length).toBeGreaterThanOrEqual(8);
  });
});
