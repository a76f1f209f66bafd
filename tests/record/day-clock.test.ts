import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { dayClock } from '../../src/record/day-clock.js';

/** Minutes that a clock reads one after the other; in Chicago it goes from 02:00 back to 01:00 on 2026-11-01. */
function minutes(begin: string, ...times: string[]): number[] {
  const clock = dayClock(Temporal.ZonedDateTime.from(`${begin}[America/Chicago]`));
  return times.map((time) => clock(Temporal.PlainTime.from(time), null));
}

describe('a clock in the hour that it shows twice', () => {
  it('goes on where it falls back, and not where a line says its time again', () => {
    expect(minutes('2026-11-01T00:50-05:00', '01:00', '01:00', '01:30', '01:10')).toEqual([
      10, 10, 40, 80,
    ]);
  });

  it('begins at the time nearer to the start of anesthesia', () => {
    expect(minutes('2026-11-01T02:00-06:00', '01:59', '02:05')).toEqual([-1, 5]);
    expect(minutes('2026-11-01T01:55-05:00', '01:05', '01:20')).toEqual([10, 25]);
    expect(minutes('2026-11-01T00:50-05:00', '01:00')).toEqual([10]);
  });
});
