import { spawnSync } from 'node:child_process';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FEWEST_INTERVALS, sinusRuns, variability } from '../../../src/signal/rate/variability.js';

/** R times, s, of intervals in ms. */
function timesOf(intervals: readonly number[]): number[] {
  const times = [0];
  for (const each of intervals) times.push(times.at(-1)! + each / 1000);
  return times;
}

/** A published example as often as it takes, each time a run of its own: what is counted within runs stays the same. */
const repeated = (intervals: readonly number[]) =>
  variability(
    Array.from({ length: Math.ceil(FEWEST_INTERVALS / intervals.length) }, () =>
      timesOf(intervals),
    ),
  )!;

describe('RMSSD', () => {
  it.each([
    // "RMSSD", worked example: https://chomsky.uni-trier.de/android/apps/myapps/hrv/assets/html/rmssd.html
    [[810, 830, 790, 850, 820], 40.3, 1],
    // systole.hrv.rmssd, example: https://embodied-computation-group.github.io/systole/generated/hrv/systole.hrv.rmssd.html
    [[800, 850, 810, 720], 63.77042156569664, 9],
  ])('of %j is %f ms, as published', (intervals, published, digits) => {
    const rmssd = repeated(intervals).rmssd * 1000;
    expect(Math.abs(rmssd - published)).toBeLessThan(0.51 * 10 ** -digits);
  });
});

describe('SDNN', () => {
  it('of 810, 830, 790, 850 and 820 ms rests on squares that add up to 2000, as published', () => {
    // "SDNN", worked example: https://chomsky.uni-trier.de/android/apps/myapps/hrv/assets/html/sdnn.html
    // (the root of 2000 over 5 less 1). Here four copies: squares of 8000 over 20 less 1.
    const { sdnn, meanNn, intervals } = repeated([810, 830, 790, 850, 820]);
    expect(meanNn).toBeCloseTo(0.82, 12);
    expect(intervals).toBe(20);
    expect((sdnn * 1000) ** 2 * 19).toBeCloseTo(8000, 6);
  });
});

describe('pNN50', () => {
  it('counts differences over 50 ms, as a share of all intervals', () => {
    // By hand: differences of 0, 60, 50 and -51 ms among five intervals, four times over.
    const { pnn50, pairs } = repeated([700, 700, 760, 810, 759]);
    expect(pairs).toBe(16);
    expect(pnn50).toBeCloseTo(8 / 20, 12);
  });
});

describe('the variation of intervals', () => {
  it('agrees with numpy', () => {
    const intervals = fc.sample(
      fc.array(fc.integer({ min: 250, max: 1500 }), { minLength: 20, maxLength: 200 }),
      { numRuns: 20, seed: 4301 },
    );
    const script = `
import json, sys, numpy as np
out = []
for x in json.load(sys.stdin):
    d = np.diff(x)
    out.append([np.mean(x), np.std(x, ddof=1), np.sqrt(np.mean(d ** 2)), int(np.sum(np.abs(d) > 50)) / len(x)])
print(json.dumps(out))`;
    const run = spawnSync('/usr/bin/python3', ['-c', script], {
      input: JSON.stringify(intervals),
      encoding: 'utf8',
    });
    if (run.status !== 0) {
      console.log('Variability against numpy: not checked, python3 with numpy did not run here.');
      return;
    }
    const outside = JSON.parse(run.stdout) as [number, number, number, number][];
    for (const [i, each] of intervals.entries()) {
      const { meanNn, sdnn, rmssd, pnn50 } = variability([timesOf(each)])!;
      for (const [k, mine] of [meanNn * 1000, sdnn * 1000, rmssd * 1000, pnn50].entries()) {
        expect(mine).toBeCloseTo(outside[i]![k]!, 6);
      }
    }
  });

  it('is not told of fewer than 20 intervals', () => {
    expect(variability([timesOf(Array.from({ length: 19 }, () => 700))])).toBeNull();
    expect(variability([timesOf(Array.from({ length: 20 }, () => 700))])).toMatchObject({
      intervals: 20,
      pnn50: 0,
    });
  });

  it('is not counted from one run to the next', () => {
    const one = timesOf(Array.from({ length: 12 }, () => 600));
    const other = timesOf(Array.from({ length: 12 }, () => 900)).map((time) => time + 60);
    const found = variability([one, other])!;
    expect(found).toMatchObject({ intervals: 24, pairs: 22, pnn50: 0 });
    expect(found.rmssd).toBeCloseTo(0, 9);
    expect(found.meanNn).toBeCloseTo(0.75, 12);
  });
});

describe('a run of sinus beats', () => {
  const beat = (time: number, kind: string) => ({ time, kind }) as never;
  it('ends at any other beat, and at the end of the sinus rhythm', () => {
    const beats = [
      beat(1, 'sinus'),
      beat(2, 'sinus'),
      beat(2.6, 'ventricular premature'),
      beat(4, 'sinus'),
      beat(5, 'sinus'),
      beat(6, 'sinus'),
      beat(7, 'unclassified'),
      beat(8, 'sinus'),
      beat(21, 'sinus'),
      beat(22, 'sinus'),
    ];
    expect(sinusRuns(beats, [{ from: 0, to: 10 }])).toEqual([
      [1, 2],
      [4, 5, 6],
    ]);
  });
});
