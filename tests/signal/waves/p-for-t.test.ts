import { describe, expect, it } from 'vitest';
import type { Bell } from '../../tools/synthetic-strip.js';
import { type BellBeat, names, toldBells } from '../told-bells.js';

const P: Bell = { at: 0, height: 0.2, width: 0.014 };
const QRS: readonly Bell[] = [
  { at: 0, height: 1.2, width: 0.0055 },
  { at: 0.014, height: -0.2, width: 0.005 },
  { at: 0.13, height: 0.08, width: 0.016 },
];

/** Atria at a pace, s, of whose waves one in `of` is not followed; P is taller than T. */
function blocked(pace: number, of: number, count: number): BellBeat[] {
  return Array.from({ length: count }, (_, i): BellBeat[] => {
    const p = 0.3 + pace * i + 0.003 * (i % 2);
    const lead: BellBeat = [p, [P]];
    return i % of === of - 1 ? [lead] : [lead, [p + 0.085, QRS]];
  }).flat();
}

describe('a P that no QRS follows and that is taller than T', () => {
  it.each([
    ['each third, at a usual pace', 0.41, 3],
    ['each sixth, at a fast one', 0.31, 6],
  ])('is no T: %s', (_, pace, of) => {
    const count = Math.floor(29 / pace);
    expect(names(toldBells(blocked(pace, of, count), 30))).toEqual([
      'second-degree atrioventricular block, constant PR',
    ]);
  });
});
