import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { writeCounts } from '../../../src/live/counts.js';
import {
  extremesIn,
  leadSamples,
  lineOf,
  millivoltAt,
  pyramidOf,
} from '../../../src/live/strip/pyramid.js';

const RATE = 500;

const lead = fc
  .array(
    fc.oneof({ weight: 9, arbitrary: fc.integer({ min: -4000, max: 4000 }) }, fc.constant(null)),
    {
      minLength: 1,
      maxLength: 3000,
    },
  )
  .map((counts) =>
    Float32Array.from(counts, (count) => (count === null ? Number.NaN : count / 1000)),
  );

describe('the samples of a lead', () => {
  it('come back in mV, missing ones as NaN', () => {
    const samples = leadSamples({
      samplingRate: RATE,
      step: 0.001,
      counts: writeCounts([1000, Number.NaN, -250]),
      missing: [[1, 2]],
    });
    expect([...samples]).toEqual([1, Number.NaN, -0.25]);
  });
});

describe('the extremes of a stretch', () => {
  it('are those of its samples, whatever blocks they are read from', () => {
    fc.assert(
      fc.property(lead, fc.nat(3000), fc.nat(3000), (samples, one, other) => {
        const [from, to] = [Math.min(one, other), Math.max(one, other)];
        const inside = [...samples.slice(from, to + 1)].filter((value) => !Number.isNaN(value));
        const found = extremesIn(pyramidOf(samples, RATE), from / RATE, to / RATE);
        if (inside.length === 0) expect(found).toBeNull();
        else expect(found).toEqual([Math.min(...inside), Math.max(...inside)]);
      }),
    );
  });
});

describe('the line of a stretch', () => {
  it('loses no deflection, however few columns it has', () => {
    fc.assert(
      fc.property(lead, fc.integer({ min: 1, max: 400 }), (samples, pixels) => {
        const seconds = samples.length / RATE;
        const points = lineOf(pyramidOf(samples, RATE), 0, seconds, pixels);
        const drawn = [...points]
          .filter((_, index) => index % 2 === 1)
          .filter((value) => !Number.isNaN(value));
        const valid = [...samples].filter((value) => !Number.isNaN(value));
        if (valid.length === 0) expect(drawn).toEqual([]);
        else {
          expect(Math.max(...drawn)).toBe(Math.max(...valid));
          expect(Math.min(...drawn)).toBe(Math.min(...valid));
        }
      }),
    );
  });

  it('has at most about four points a column, on ten minutes at 500 Hz', () => {
    const samples = Float32Array.from({ length: 600 * RATE }, (_, index) => Math.sin(index / 7));
    const pyramid = pyramidOf(samples, RATE);
    for (const pixels of [343, 750, 1500]) {
      for (const seconds of [2, 10, 60, 600]) {
        const { length } = lineOf(pyramid, 0, seconds, pixels);
        expect(length / 2).toBeLessThanOrEqual(4 * pixels + 4);
      }
    }
  });

  it('runs through every sample where there is room, at its own time', () => {
    const samples = Float32Array.of(0, 1, 2, 3, 4, 5);
    expect([...lineOf(pyramidOf(samples, 2), 0.5, 1.5, 100)]).toEqual([0.5, 1, 1, 2, 1.5, 3]);
  });

  it('never runs back in time', () => {
    fc.assert(
      fc.property(lead, fc.integer({ min: 1, max: 50 }), (samples, pixels) => {
        const points = lineOf(pyramidOf(samples, RATE), 0, samples.length / RATE, pixels);
        const times = [...points].filter((_, index) => index % 2 === 0);
        expect(times).toEqual([...times].sort((a, b) => a - b));
      }),
    );
  });
});

describe('the height at a moment', () => {
  const pyramid = pyramidOf(Float32Array.of(0, 1, Number.NaN, 3), 10);

  it('lies on the straight line between two samples', () => {
    expect(millivoltAt(pyramid, 0)).toBe(0);
    expect(millivoltAt(pyramid, 0.05)).toBeCloseTo(0.5, 9);
    expect(millivoltAt(pyramid, 0.1)).toBe(1);
    expect(millivoltAt(pyramid, 0.3)).toBe(3);
  });

  it('is not claimed beside a missing sample, before the strip or after it', () => {
    for (const second of [0.15, 0.2, 0.25, -0.1, 0.31]) {
      expect(millivoltAt(pyramid, second)).toBeNull();
    }
  });
});
