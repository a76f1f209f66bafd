import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mmhg } from '../../src/units/brands.js';
import type { ChannelReadings, Reading } from '../../src/vitals/channel.js';
import {
  burdenBelow,
  episodesBelow,
  estimatedMean,
  isLast,
  LOW_MEAN_PRESSURE,
  LOW_SYSTOLIC_PRESSURE,
  lowTime,
  meanPressure,
  wholeMinutes,
} from '../../src/vitals/pressure.js';

describe('the estimated mean pressure', () => {
  it('is 93.33 for 120/80 (OpenStax, Anatomy and Physiology, section 20.2)', () => {
    expect(estimatedMean(mmhg(120), mmhg(80))).toBeCloseTo(93.33, 2);
  });

  it('is two parts diastolic and one part systolic, so it lies between them', () => {
    const pressure = fc.integer({ min: 0, max: 300 });
    fc.assert(
      fc.property(pressure, pressure, (a, b) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        const mean = estimatedMean(mmhg(high), mmhg(low));
        expect(mean).toBeCloseTo((2 * low + high) / 3, 9);
        expect(mean).toBeGreaterThanOrEqual(low);
        expect(mean).toBeLessThanOrEqual(high + 1e-9);
      }),
    );
  });
});

const at = (minute: number, value: number): Reading => ({ minute, value, line: minute + 2 });

const channel = (
  name: ChannelReadings['channel'],
  patient: readonly Reading[],
  apart: ChannelReadings['apart'] = [],
): ChannelReadings => ({ channel: name, unit: 'mmHg', patient, apart });

describe('the mean pressure to speak of', () => {
  const systolic = channel('systolic', [at(0, 120), at(5, 90), at(10, 100)]);
  const diastolic = channel('diastolic', [at(0, 60), at(10, 70)]);

  const estimate = (minute: number, value: number): Reading => ({
    ...at(minute, value),
    computed: true,
  });

  it('is line by line the monitor’s own where it gave one, else computed and marked', () => {
    const own = channel('mean', [at(0, 77)]);
    // (100 + 2 · 70) / 3
    expect(meanPressure(own, systolic, diastolic, []).patient).toEqual([
      at(0, 77),
      estimate(10, 80),
    ]);
  });

  it('is low on 14 lines of 70/30 with one mean of 72: a single cell hides no other line', () => {
    const minutes = Array.from({ length: 14 }, (_, index) => 5 * index);
    const mean = meanPressure(
      channel('mean', [at(0, 72)]),
      channel(
        'systolic',
        minutes.map((minute) => at(minute, 70)),
      ),
      channel(
        'diastolic',
        minutes.map((minute) => at(minute, 30)),
      ),
      [],
    );
    // (70 + 2 · 30) / 3 = 43.3
    expect(episodesBelow(60, mean.patient)).toMatchObject([{ from: 5, to: 65, before: 0 }]);
    expect(mean.patient.filter(({ computed }) => computed)).toHaveLength(13);
  });

  it('is not computed where the monitor’s own stands apart, and is on the other lines', () => {
    const own = channel('mean', [], [{ ...at(0, 12), why: 'cuff off' }]);
    const off = [{ channel: 'mean' as const, from: -2, to: 4, why: 'cuff off' }];
    expect(meanPressure(own, systolic, diastolic, off).patient).toEqual([estimate(10, 80)]);
  });

  it('is computed from both readings of a line, and marked, where the monitor gave none', () => {
    const mean = meanPressure(channel('mean', []), systolic, diastolic, []);
    expect(mean.patient).toEqual([estimate(0, 80), estimate(10, 80)]);
  });

  it('takes no reading of a sensor that was off', () => {
    const cuffOff = channel('systolic', [at(10, 100)], [{ ...at(0, 20), why: 'cuff off' }]);
    expect(meanPressure(channel('mean', []), cuffOff, diastolic, []).patient).toEqual([
      estimate(10, 80),
    ]);
  });

  it('is computed on both sides of a cuff that was off, with nothing seen between them', () => {
    const off = [{ channel: 'systolic' as const, from: 4, to: 6, why: 'cuff off' }];
    const mean = meanPressure(channel('mean', []), systolic, diastolic, off);
    expect(mean.patient).toEqual([estimate(0, 80), { ...estimate(10, 80), afterOff: true }]);
  });

  it('that was read is not marked for a stretch that ended before the estimate before it', () => {
    const off = [{ channel: 'mean' as const, from: 2, to: 4, why: 'cuff off' }];
    const own = channel('mean', [at(0, 77), { ...at(15, 70), afterOff: true }]);
    const mean = meanPressure(own, systolic, diastolic, off);
    expect(mean.patient).toEqual([at(0, 77), { ...estimate(10, 80), afterOff: true }, at(15, 70)]);
  });

  it('that was read hangs on no cuff', () => {
    const off = [{ channel: 'systolic' as const, from: 4, to: 6, why: 'cuff off' }];
    const own = channel('mean', [at(0, 77), at(10, 78)]);
    expect(meanPressure(own, systolic, diastolic, off).patient).toEqual(own.patient);
  });
});

describe('episodes below a limit', () => {
  it('takes the lower end of the guideline’s 60-70 mmHg (2020 AAHA guidelines) as the limit', () => {
    expect(LOW_MEAN_PRESSURE).toBe(60);
    // And of systolic pressure alone the upper end of 80-90.
    expect(LOW_SYSTOLIC_PRESSURE).toBe(90);
  });

  it('reach from the first low reading to the last, between the readings that are not low', () => {
    const readings = [at(0, 70), at(5, 58), at(10, 46), at(15, 60), at(20, 59)];
    expect(episodesBelow(60, readings)).toEqual([
      { from: 5, to: 10, before: 0, after: 15, lowest: at(10, 46) },
      { from: 20, to: 20, before: 15, after: null, lowest: at(20, 59) },
    ]);
    expect(episodesBelow(60, [at(0, 50), at(5, 60)])).toMatchObject([{ before: null, after: 5 }]);
  });

  it('end where the sensor was off the patient, and that side is open', () => {
    const back = (minute: number, value: number) => ({
      ...at(minute, value),
      afterOff: true as const,
    });
    const readings = [at(0, 70), at(5, 50), back(20, 52), at(25, 65), back(40, 55), back(60, 70)];
    expect(episodesBelow(60, readings)).toEqual([
      { from: 5, to: 5, before: 0, after: null, unseen: 'after', lowest: at(5, 50) },
      { from: 20, to: 20, before: null, after: 25, unseen: 'before', lowest: back(20, 52) },
      { from: 40, to: 40, before: null, after: null, unseen: 'both', lowest: back(40, 55) },
    ]);
    expect(lowTime(episodesBelow(60, readings))).toEqual({ least: 0, most: null });
    expect(episodesBelow(60, readings).some(isLast)).toBe(false);
    expect(episodesBelow(60, readings.slice(0, 2)).some(isLast)).toBe(true);
  });

  it('bound the time in whole minutes that the readings bear: 4.6 to 9.2 min is more than 4, less than 10', () => {
    expect(wholeMinutes({ least: 4.6, most: 9.2 })).toEqual({ least: 4, most: 10 });
    // 50.1 - 35.1 is 15.000000000000007 in binary.
    expect(wholeMinutes({ least: 5, most: 50.1 - 35.1 })).toEqual({ least: 5, most: 15 });
    expect(wholeMinutes({ least: 0.6, most: null })).toEqual({ least: 0, most: null });
  });

  it('bound the time: 70, 46, 53, 61 at minutes 35 to 50 is more than 5 and less than 15 min', () => {
    const readings = [at(35, 70), at(40, 46), at(45, 53), at(50, 61)];
    expect(lowTime(episodesBelow(60, readings))).toEqual({ least: 5, most: 15 });
    expect(lowTime(episodesBelow(60, readings.slice(1)))).toEqual({ least: 5, most: null });
    expect(lowTime(episodesBelow(60, readings.slice(0, 3)))).toEqual({ least: 5, most: null });
  });

  it('hold any pressure that goes evenly from reading to reading within their bounds', () => {
    const values = fc.array(fc.integer({ min: 40, max: 80 }), { minLength: 2, maxLength: 30 });
    fc.assert(
      fc.property(values, (given) => {
        const readings = [70, ...given, 70].map((value, index) => at(index * 5, value));
        const { least, most } = lowTime(episodesBelow(60, readings));
        const true_ = readings.slice(1).reduce((sum, next, index) => {
          const before = readings[index] as Reading;
          const [low, high] = [before.value, next.value].sort((a, b) => a - b) as [number, number];
          if (low >= 60) return sum;
          return sum + (high < 60 ? 5 : (5 * (60 - low)) / (high - low));
        }, 0);
        expect(true_).toBeGreaterThanOrEqual(least - 1e-9);
        expect(true_).toBeLessThanOrEqual((most as number) + 1e-9);
      }),
    );
  });

  it('do not count the limit itself as low', () => {
    expect(episodesBelow(60, [at(0, 60)])).toEqual([]);
    expect(episodesBelow(60, [])).toEqual([]);
  });

  it('hold each low reading once, in order, apart from one another, and end once', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 40, max: 80 }), { maxLength: 40 }), (values) => {
        const readings = values.map((value, index) => at(index * 5, value));
        const episodes = episodesBelow(60, readings);
        for (const [index, { from, to, before, after, lowest }] of episodes.entries()) {
          const inside = readings.filter(({ minute }) => minute >= from && minute <= to);
          expect(inside.every(({ value }) => value < 60)).toBe(true);
          expect(lowest.value).toBe(Math.min(...inside.map(({ value }) => value)));
          expect(before).toBe(readings.find(({ minute }) => minute === from - 5)?.minute ?? null);
          expect(after).toBe(readings.find(({ minute }) => minute === to + 5)?.minute ?? null);
          expect(from).toBeGreaterThan(episodes[index - 1]?.to ?? -1);
          if (after === null) expect(index).toBe(episodes.length - 1);
        }
        const held = readings.filter(({ minute }) =>
          episodes.some(({ from, to }) => minute >= from && minute <= to),
        );
        expect(held).toEqual(readings.filter(({ value }) => value < 60));
      }),
    );
  });
});

describe('the burden of low pressure', () => {
  const readings = [
    at(0, 75),
    at(5, 70),
    at(10, 46),
    at(15, 53),
    at(20, 61),
    at(25, 58),
    at(30, 59),
  ];

  it('counts each low reading until the next: 5·14 + 5·7 + 5·2 mmHg·min by hand', () => {
    expect(burdenBelow(60, readings)).toEqual({ minutes: 15, area: 115 });
  });

  it('adds nothing across a stretch in which the sensor was off: 10·10 mmHg·min alone', () => {
    const all = [at(0, 50), at(10, 50), { ...at(40, 50), afterOff: true as const }, at(40, 70)];
    expect(burdenBelow(60, all)).toEqual({ minutes: 10, area: 100 });
  });

  it('has no time and no area where nothing is low', () => {
    expect(burdenBelow(40, readings)).toEqual({ minutes: 0, area: 0 });
  });

  it('lies between the bounds of the episodes, with no area beyond the deepest reading', () => {
    const values = fc.array(fc.integer({ min: 30, max: 90 }), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(values, (given) => {
        const all = given.map((value, index) => at(index * 5, value));
        const { minutes, area } = burdenBelow(60, all);
        const { least, most } = lowTime(episodesBelow(60, all));
        expect(minutes).toBeGreaterThanOrEqual(least);
        if (most !== null) expect(minutes).toBeLessThanOrEqual(most);
        expect(area).toBeLessThanOrEqual(minutes * (60 - Math.min(60, ...given)));
      }),
    );
  });
});
