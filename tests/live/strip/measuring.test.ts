import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beatUnder, nearestBeat } from '../../../src/live/strip/beat-at.js';
import { measured } from '../../../src/live/strip/calipers.js';
import { nearestMark, nextMark, waveMarks } from '../../../src/live/strip/wave-marks.js';

const wave = (onset: number, peak: number, end: number) => ({ onset, peak, end, confidence: 1 });
const BEATS = [
  { time: 0.5, kind: 'sinus', p: wave(0.36, 0.38, 0.4), qrs: wave(0.48, 0.5, 0.54), t: null },
  { time: 1.1, kind: 'sinus', p: null, qrs: wave(1.08, 1.1, 1.14), t: wave(1.2, 1.26, 1.3) },
  { time: 1.6, kind: 'unclassified', p: null, qrs: null, t: null },
] as const;

describe('calipers', () => {
  it('give 100 a minute for 0.6 s: 15 large boxes at 50 mm/s (rate = 3000 / mm at that speed)', () => {
    const { seconds, perMinute } = measured(
      { second: 0.5, millivolt: 1 },
      { second: 1.1, millivolt: 1 },
    );
    expect(seconds).toBeCloseTo(0.6, 9);
    expect(perMinute).toBeCloseTo(3000 / (0.6 * 50), 9);
  });

  it('do not care which point was put first', () => {
    const point = fc.record({
      second: fc.double({ min: 0, max: 600, noNaN: true }),
      millivolt: fc.option(fc.double({ min: -5, max: 5, noNaN: true })),
    });
    fc.assert(
      fc.property(point, point, (one, other) => {
        fc.pre(one.second !== other.second);
        expect(measured(one, other)).toEqual(measured(other, one));
      }),
    );
  });

  it('tell the height from the earlier point to the later', () => {
    const low = { second: 1, millivolt: -0.25 };
    expect(measured({ second: 2, millivolt: 1 }, low).millivolts).toBe(1.25);
    expect(measured({ second: 0, millivolt: 1 }, low).millivolts).toBe(-1.25);
  });

  it('claim no rate for one moment, and no height without a sample', () => {
    const here = { second: 1, millivolt: 1 };
    expect(measured(here, here).perMinute).toBeNull();
    expect(measured(here, { second: 2, millivolt: null }).millivolts).toBeNull();
  });
});

describe('the marks that points are held to', () => {
  const marks = waveMarks(BEATS);

  it('are the ends and tops of the waves that were found, and the R of every beat', () => {
    expect(marks.map(({ at, wave: name, part, beat }) => `${at} ${name} ${part} ${beat}`)).toEqual([
      '0.36 P onset 1',
      '0.38 P peak 1',
      '0.4 P end 1',
      '0.48 QRS onset 1',
      '0.5 QRS peak 1',
      '0.54 QRS end 1',
      '1.08 QRS onset 2',
      '1.1 QRS peak 2',
      '1.14 QRS end 2',
      '1.2 T onset 2',
      '1.26 T peak 2',
      '1.3 T end 2',
      '1.6 QRS peak 3',
    ]);
  });

  it('are walked one by one in both directions, and end', () => {
    let at = 0;
    const walked: number[] = [];
    for (let mark = nextMark(marks, at, 1); mark; mark = nextMark(marks, at, 1)) {
      at = mark.at;
      walked.push(at);
    }
    expect(walked).toEqual(marks.map((mark) => mark.at));
    expect(nextMark(marks, at, -1)?.at).toBe(1.3);
    expect(nextMark(marks, 0.36, -1)).toBeNull();
  });

  it('draw a point from close by and leave it alone from afar', () => {
    expect(nearestMark(marks, 0.39, 0.02)?.at).toBeCloseTo(0.4, 1);
    expect(nearestMark(marks, 0.497, 0.02)).toMatchObject({ wave: 'QRS', part: 'peak', beat: 1 });
    expect(nearestMark(marks, 0.8, 0.02)).toBeNull();
    expect(nearestMark([], 1, 10)).toBeNull();
  });
});

describe('the beat at a moment', () => {
  it('is the one whose R is nearest', () => {
    expect(nearestBeat(BEATS, 0)).toBe(0);
    expect(nearestBeat(BEATS, 0.79)).toBe(0);
    expect(nearestBeat(BEATS, 0.81)).toBe(1);
    expect(nearestBeat(BEATS, 9)).toBe(2);
    expect(nearestBeat([], 1)).toBeNull();
  });

  it('has begun with its P, or with its QRS where no P was seen', () => {
    expect(beatUnder(BEATS, 0.35)).toBeNull();
    expect(beatUnder(BEATS, 0.36)).toBe(0);
    expect(beatUnder(BEATS, 1.07)).toBe(0);
    expect(beatUnder(BEATS, 1.09)).toBe(1);
    expect(beatUnder(BEATS, 1.7)).toBe(2);
  });
});
