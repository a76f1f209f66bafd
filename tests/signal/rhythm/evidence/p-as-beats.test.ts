import { describe, expect, it } from 'vitest';
import type { ShapeFamilies } from '../../../../src/signal/beats/families.js';
import type { MarkedBeat } from '../../../../src/signal/marked-beat.js';
import {
  beatsInStepWithP,
  beatsWithoutQrs,
  earlyWithoutT,
} from '../../../../src/signal/rhythm/evidence/p-as-beats.js';
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

describe('what was counted as a beat between beats with a T', () => {
  const wave = { onset: seconds(0), peak: seconds(0), end: seconds(0), height: millivolt(0.1) };
  /** Every second of twenty of another shape, mV and mV/s, with a T or without. */
  const everySecond = (height: number, steepness: number, withT: boolean) => {
    const beats = Array.from({ length: 20 }, (_, i) => ({
      t: i % 2 && !withT ? null : { ...wave, confidence: 1 },
    })) as unknown as MarkedBeat[];
    const placesOf = (odd: number) => beats.flatMap((_, i) => (i % 2 === odd ? [i] : []));
    const families = [
      { height: 0.22, steepness: 26, members: placesOf(0) },
      { height, steepness, members: placesOf(1) },
    ];
    return beatsWithoutQrs(beats, { families } as unknown as ShapeFamilies);
  };

  it('is a P where it is low, gentle, and has no T', () => {
    expect(everySecond(0.11, 9, false)).toEqual([1, 3, 5, 7, 9, 11, 13, 15, 17, 19]);
  });

  it('is a beat where it is as tall, or as steep as a QRS, or has a T', () => {
    expect(everySecond(0.2, 9, false)).toEqual([]);
    expect(everySecond(0.11, 22, false)).toEqual([]);
    expect(everySecond(0.11, 9, true)).toEqual([]);
  });

  it('is a P where it is low, early and has no T, though noise gives all of them one shape', () => {
    const early = (height: number, withT: boolean) =>
      earlyWithoutT(
        Array.from({ length: 12 }, (_, i) => ({
          kind: i % 2 ? 'supraventricular premature' : 'sinus',
          qrs: { ...wave, height: millivolt(i % 2 ? height : 0.28) },
          t: i % 2 && !withT ? null : wave,
        })) as unknown as MarkedBeat[],
      );
    expect(early(0.15, false)).toEqual([1, 3, 5, 7, 9, 11]);
    expect(early(0.15, true)).toEqual([]);
    expect(early(0.27, false)).toEqual([]);
  });
});
