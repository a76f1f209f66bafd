import { describe, expect, it } from 'vitest';
import type { Bell } from '../../tools/synthetic-strip.js';
import { type BellBeat, toldBells } from '../told-bells.js';

const WIDENED: readonly Bell[] = [
  { at: -0.024, height: -0.1, width: 0.009 },
  { at: 0, height: 1.4, width: 0.011 },
  { at: 0.026, height: -0.3, width: 0.01 },
  { at: 0.17, height: 0.8, width: 0.024 },
];
const P: Bell = { at: -0.11, height: 0.2, width: 0.011 };

const slow = (waves: readonly Bell[]): BellBeat[] =>
  Array.from({ length: 20 }, (_, i): BellBeat => [0.5 + 1.2 * i + 0.012 * (i % 3), waves]);

describe('slow even beats whose QRS is widened, as by potassium', () => {
  it('are no sinus rhythm where the atria rest, but a standstill of them or the rhythm of a ventricle', () => {
    const told = toldBells(slow(WIDENED), 24);
    expect(told.rhythms.map(({ possible }) => possible)).toEqual([
      ['a junctional rhythm, the atria at rest or not', 'idioventricular rhythm'],
    ]);
  });

  it('are neither where P leads to them', () => {
    const [told] = toldBells(slow([P, ...WIDENED]), 24).rhythms;
    expect(told?.possible).not.toContain('idioventricular rhythm');
  });
});
