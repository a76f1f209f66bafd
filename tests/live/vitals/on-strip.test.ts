import { expect, it } from 'vitest';
import type { LiveStrip } from '../../../src/live/contract.js';
import { minuteOf, momentAt } from '../../../src/live/vitals/on-strip.js';

const strip = (begins: number | null, duration: number) =>
  ({ begins, analysis: { duration } }) as LiveStrip;

it('finds the second of the strip that runs at a minute, and the way back', () => {
  const strips = [strip(null, 60), strip(30, 60)];
  const moment = momentAt(30.5, strips);
  expect(moment).toEqual({ minute: 30.5, onStrip: { strip: 1, second: 30 } });
  expect(minuteOf({ ...moment, minute: null }, strips)).toBe(30.5);
});

it('claims no place on a strip that does not run then, or of which nobody knows when it began', () => {
  expect(momentAt(32, [strip(30, 60)]).onStrip).toBeNull();
  expect(momentAt(32, [strip(null, 6000)]).onStrip).toBeNull();
  expect(
    minuteOf({ minute: null, onStrip: { strip: 0, second: 3 } }, [strip(null, 60)]),
  ).toBeNull();
  expect(minuteOf({ minute: null, onStrip: null }, [strip(0, 60)])).toBeNull();
});
