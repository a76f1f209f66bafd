import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Span } from '../../../src/signal/quality/span.js';
import { type BeatRun, beatRuns } from '../../../src/signal/rate/beat-runs.js';
import { beatToBeat, extremeIntervals, meanRate } from '../../../src/signal/rate/beat-to-beat.js';
import { longEnough } from '../../../src/signal/rate/long-enough.js';
import { shortWindow } from '../../../src/signal/rate/short-window.js';
import { seconds } from '../../../src/units/brands.js';

const run = (from: number, to: number, beats: readonly number[]): BeatRun => ({
  from: seconds(from),
  to: seconds(to),
  beats: beats.map(seconds),
});

/** `count` beats every `rr` s from `start`, in a run that begins and ends half an interval around them. */
const even = (rr: number, count: number, start = rr / 2) =>
  run(
    start - rr / 2,
    start + (count - 0.5) * rr,
    [...Array(count)].map((_, i) => start + i * rr),
  );

/**
 * Beats 0.2-3 s apart, within a run that reaches from 0 to a little after the last. In whole microseconds: a beat within
 * 1e-9 s of an edge counts as on it, and a sweep would not.
 */
const anyRun = fc
  .array(fc.integer({ min: 200_000, max: 3_000_000 }), { minLength: 2, maxLength: 80 })
  .map((intervals) => {
    let t = 0;
    const beats = intervals.map((rr) => {
      t += rr;
      return t / 1e6;
    });
    return run(0, (t + 100_000) / 1e6, beats);
  });

/** A minute or more of beats that come up to 20 % early or late. */
const nearlyEvenRun = fc
  .tuple(
    fc.double({ min: 0.25, max: 1, noNaN: true }),
    fc.array(fc.double({ min: 0.8, max: 1.2, noNaN: true }), { minLength: 150, maxLength: 200 }),
  )
  .map(([rr, shares]) => {
    let t = 0;
    const beats = shares.map((share) => {
      t += rr * share;
      return t;
    });
    return run(0, t + rr / 2, beats);
  });

describe('the mean rate', () => {
  it('of evenly spaced beats is 60 over the spacing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 3, noNaN: true }),
        fc.integer({ min: 2, max: 400 }),
        (rr, count) => {
          expect(meanRate([even(rr, count)])).toBeCloseTo(60 / rr, 9);
        },
      ),
    );
  });

  it('lies between the fastest and the slowest beat-to-beat rate', () => {
    fc.assert(
      fc.property(anyRun, (strip) => {
        const { shortest, longest } = extremeIntervals([strip])!;
        expect(meanRate([strip])!).toBeLessThanOrEqual(60 / shortest + 1e-9);
        expect(meanRate([strip])!).toBeGreaterThanOrEqual(60 / longest - 1e-9);
      }),
    );
  });

  it('does not count the time or the beats of a gap: 1 s apart, gap of 7 s, 0.5 s apart', () => {
    const runs = [run(0, 4.5, [1, 2, 3, 4]), run(11, 14, [11.5, 12, 12.5])];
    expect(meanRate(runs)).toBeCloseTo((60 * 5) / (3 + 1), 12);
    expect(extremeIntervals(runs)).toEqual({ shortest: 0.5, longest: 1 });
    expect(beatToBeat(runs).map(({ duration }) => duration)).toEqual([1, 1, 1, 0.5, 0.5]);
  });

  it('is not told for one beat, nor for two with a gap between them', () => {
    expect(meanRate([run(0, 9, [4])])).toBeNull();
    expect(meanRate([run(0, 4, [2]), run(6, 9, [7])])).toBeNull();
    expect(extremeIntervals([run(0, 4, [2]), run(6, 9, [7])])).toBeNull();
  });
});

it('sorts beats into the readable spans', () => {
  const span = (from: number, to: number, why: Span['why']): Span => ({
    from: seconds(from),
    to: seconds(to),
    readable: why === '',
    why,
  });
  const spans = [span(0, 3, ''), span(3, 5, 'noise'), span(5, 9, '')];
  expect(beatRuns([1, 2, 6, 7].map(seconds), spans)).toEqual([
    run(0, 3, [1, 2]),
    run(5, 9, [6, 7]),
  ]);
});

describe('a count over a short window', () => {
  it('shows the very rate where the window holds whole intervals of even beats', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 30 }),
        fc.integer({ min: 2, max: 6 }),
        (perWindow, windows) => {
          const strip = even(6 / perWindow, perWindow * windows);
          expect(shortWindow([strip])).toEqual({
            window: 6,
            low: perWindow * 10,
            high: perWindow * 10,
          });
        },
      ),
    );
  });

  it('is what a person would get: 7 beats/6 s and 3 beats/6 s where the breath drives the beats', () => {
    // Three quick beats 0.5 s apart, then 2.5 s of rest, over and over.
    const beats = [...Array(8)].flatMap((_, i) => [0, 0.5, 1].map((t) => 0.2 + 3.5 * i + t));
    expect(shortWindow([run(0, 28, beats)])).toEqual({ window: 6, low: 40, high: 60 });
    expect(meanRate([run(0, 28, beats)])).toBeCloseTo((60 * 23) / 25.5, 9);
  });

  it('is never beaten by a window put anywhere else', () => {
    fc.assert(
      fc.property(
        anyRun,
        fc.integer({ min: 1, max: 20 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (strip, window, share) => {
          const spread = shortWindow([strip], seconds(window));
          fc.pre(spread !== null);
          const start = share * (strip.to - window);
          const count = strip.beats.filter((t) => t >= start && t < start + window).length;
          expect((count * 60) / window).toBeGreaterThanOrEqual(spread!.low - 1e-9);
          expect((count * 60) / window).toBeLessThanOrEqual(spread!.high + 1e-9);
        },
      ),
    );
  });

  it('is reached by some window: a fine sweep finds the same extremes', () => {
    fc.assert(
      fc.property(anyRun, (strip) => {
        const spread = shortWindow([strip], seconds(4));
        fc.pre(spread !== null);
        const last = strip.to - 4;
        const edges = strip.beats.flatMap((t) => [t, t + 1e-7, t - 4, t - 4 + 1e-7]);
        const starts = [0, last, ...edges].filter((a) => a >= 0 && a <= last);
        const counts = starts.map(
          (a) => strip.beats.filter((t) => t >= a - 1e-9 && t < a + 4 - 1e-9).length,
        );
        expect(spread!.low).toBeCloseTo(Math.min(...counts) * 15, 9);
        expect(spread!.high).toBeCloseTo(Math.max(...counts) * 15, 9);
      }),
    );
  });

  it('is not told where no readable run lasts as long, and never reaches over a gap', () => {
    expect(shortWindow([even(0.5, 6), even(0.5, 6, 10.25)])).toBeNull();
    const runs = [even(0.5, 16), run(20, 25, [])];
    expect(shortWindow(runs)).toEqual({ window: 6, low: 120, high: 120 });
  });

  it('shows nought in a pause that fills it', () => {
    expect(shortWindow([run(0, 20, [1, 2, 3, 10, 11, 12])])!.low).toBe(0);
  });
});

describe('how long is long enough', () => {
  it('is 1 s for even beats at 120/min on the second', () => {
    expect(longEnough([even(0.5, 60)])).toEqual({ window: 1, steadyFrom: 1, because: null });
  });

  it('keeps its promise: every window of that length is within 5 %, no shorter one is', () => {
    fc.assert(
      fc.property(nearlyEvenRun, (strip) => {
        const { window } = longEnough([strip]);
        if (window === null) return;
        const mean = meanRate([strip])!;
        const isSteady = (w: number) => {
          const spread = shortWindow([strip], seconds(w))!;
          return spread.low >= 0.95 * mean - 1e-6 && spread.high <= 1.05 * mean + 1e-6;
        };
        expect(isSteady(window!)).toBe(true);
        for (let w = 1; w < window!; w++) expect(isSteady(w)).toBe(false);
        expect(2 * window!).toBeLessThanOrEqual(strip.to);
      }),
    );
  });

  // 287 intervals in 95 · 3.5 + 1 s: 51.63 beats/min, so each count has to show 49.05 to 54.22.
  const rounds = [...Array(96)].flatMap((_, i) => [0, 0.5, 1].map((t) => 0.2 + 3.5 * i + t));
  const threeByThree = run(0, 336, rounds);

  it('is 7 s where three beats come every 3.5 s: two rounds, six beats, wherever it begins', () => {
    expect(longEnough([threeByThree]).window).toBe(7);
  });

  it('may fail again for a longer window: 8 s hold 6 to 8 beats there, 37 s as few as 30', () => {
    expect(shortWindow([threeByThree], seconds(8))).toMatchObject({ low: 45, high: 60 });
    // 5 · 7 s hold 30 beats, and the 2 s behind them may hold none: 30 · 60 / 37 = 48.6.
    expect(shortWindow([threeByThree], seconds(37))?.low).toBeCloseTo(48.65, 2);
    expect(longEnough([threeByThree]).steadyFrom).toBe(38);
  });

  it('says of a strip that is too short for it no time from which on every one fits', () => {
    const short = run(0, 84, rounds.slice(0, 72));
    expect(longEnough([short])).toEqual({ window: 7, steadyFrom: null, because: null });
  });

  it('is steady from where on every longer window fits too, looked at one by one', () => {
    fc.assert(
      fc.property(nearlyEvenRun, (strip) => {
        const { window, steadyFrom } = longEnough([strip]);
        if (window === null) return;
        const mean = meanRate([strip])!;
        const fits = (w: number) => {
          const spread = shortWindow([strip], seconds(w))!;
          return spread.low >= 0.95 * mean - 1e-6 && spread.high <= 1.05 * mean + 1e-6;
        };
        const longest = Math.floor(strip.to - strip.from);
        let expected = longest + 1;
        while (expected > 1 && fits(expected - 1)) expected--;
        expect(steadyFrom).toBe(2 * expected <= strip.to - strip.from ? expected : null);
      }),
    );
  });

  it('says why it cannot tell', () => {
    expect(longEnough([run(0, 9, [4])]).because).toBe('fewer than two beats');
    expect(longEnough([run(0, 9, [1, 1.5, 2, 6, 8])]).because).toBe('strip too short');
  });
});
