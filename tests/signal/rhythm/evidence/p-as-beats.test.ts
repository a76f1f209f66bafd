import { describe, expect, it } from 'vitest';
import type { ShapeFamilies } from '../../../../src/signal/beats/families.js';
import type { MarkedBeat } from '../../../../src/signal/marked-beat.js';
import { beatsInStepWithP } from '../../../../src/signal/rhythm/evidence/p-as-beats.js';
import { millivolt, seconds } from '../../../../src/units/brands.js';

const PR = 0.09;

/** R times with the height of what was counted there, mV; a low one has no P. */
function beatsAt(places: readonly (readonly [time: number, height: number])[]): MarkedBeat[] {
  const wave = (at: number, height: number) => ({
    onset: seconds(at - 0.02),
    peak: seconds(at),
    end: seconds(at + 0.02),
    height: millivolt(height),
    confidence: 1,
  });
  return places.map(([time, height]) => ({
    time: seconds(time),
    p: height < 1 ? null : wave(time - PR, 0.2),
    qrs: wave(time, height),
    t: null,
    kind: 'unclassified',
    confidence: 0,
  }));
}

/** Eight beats of the sinus node, four of its P waves without one, and eight beats. */
const blocked = (height: number, off: number): MarkedBeat[] =>
  beatsAt(
    Array.from({ length: 20 }, (_, i) =>
      i >= 8 && i < 12 ? [0.5 * i - PR + (i % 2 ? off : 0), height] : [0.5 * i, 1.2],
    ),
  );

const SHAPES = {
  families: [{ height: 1.2 }],
  of: new Array<number>(20).fill(0),
} as unknown as ShapeFamilies;

describe('what was counted as beats where the next P waves were due', () => {
  it('are those P waves', () => {
    expect(beatsInStepWithP(blocked(0.3, 0), SHAPES)).toEqual([8, 9, 10, 11]);
  });

  it('are those P waves where pairs of them stand between conducted beats, but for one pair alone', () => {
    const pairs = (count: number): MarkedBeat[] =>
      beatsAt(
        Array.from({ length: 20 }, (_, i) =>
          i >= 8 && i < 8 + 3 * count && i % 3 !== 1 ? [0.5 * i - PR, 0.3] : [0.5 * i, 1.2],
        ),
      );
    expect(beatsInStepWithP(pairs(3), SHAPES)).toEqual([8, 9, 11, 12, 14, 15]);
    expect(beatsInStepWithP(pairs(1), SHAPES)).toEqual([]);
  });

  it('are those P waves though the first of each row hides in T, and noise is marked as a P before others', () => {
    const rows = beatsAt(
      Array.from({ length: 24 }, (_, i) =>
        i >= 8 && i < 20 && i % 4 !== 0 ? [0.4 * i - PR, 0.3] : [0.4 * i, 1.2],
      ),
    )
      .filter((_, i) => !(i >= 8 && i < 20 && i % 4 === 1))
      .map((beat, i) =>
        i === 9
          ? { ...beat, kind: 'ventricular' as const, p: { ...beat.qrs!, height: millivolt(0.1) } }
          : beat,
      );
    expect(beatsInStepWithP(rows, SHAPES)).toEqual([9, 10, 12, 13, 15, 16]);
  });

  it('are beats where they are as tall as the others, or out of step', () => {
    expect(beatsInStepWithP(blocked(0.99, 0), SHAPES)).toEqual([]);
    expect(beatsInStepWithP(blocked(0.3, 0.08), SHAPES)).toEqual([]);
  });

  it('are beats where they are wide', () => {
    const wide = blocked(0.3, 0).map((beat) => ({
      ...beat,
      qrs: beat.qrs && { ...beat.qrs, end: seconds(beat.qrs.peak + 0.06) },
    }));
    expect(beatsInStepWithP(wide, SHAPES)).toEqual([]);
  });
});
