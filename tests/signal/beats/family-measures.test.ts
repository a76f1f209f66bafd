import { describe, expect, it } from 'vitest';
import { shapeFamilies } from '../../../src/signal/beats/families.js';
import { seconds } from '../../../src/units/brands.js';
import { syntheticLead } from '../../tools/synthetic-strip.js';

/** Width of the QRS of beats that are one bell, s, cut off at a share of its height as at the end of a recorder's range. */
function widthOf(standardDeviation: number, cutAt: number): number {
  const beats = Array.from({ length: 20 }, (_, i) => 0.5 + 0.4 * i);
  const { samples, ...lead } = syntheticLead({
    rate: 500,
    duration: 9,
    beats,
    waves: () => [{ at: 0, height: 2, width: standardDeviation }],
    noise: 0.003,
  });
  const cut = { ...lead, samples: samples.map((x) => Math.min(x, 2 * cutAt)) };
  // R stands on the first sample that is highest, so at the beginning of a flat top.
  const foundAt = (beat: number) => {
    const from = Math.round((beat - 0.08) * 500);
    const around = cut.samples.subarray(from, from + 80);
    return (from + around.indexOf(Math.max(...around))) / 500;
  };
  const { families } = shapeFamilies(
    [cut],
    beats.map((beat) => ({ time: seconds(foundAt(beat)) })),
  );
  return families[0]?.qrsDuration ?? Number.NaN;
}

describe('the width of a QRS', () => {
  it.each([0.012, 0.016, 0.02])(
    'is that of the whole, whether or not its top is cut off: %d s',
    (sd) => {
      const whole = widthOf(sd, 2);
      for (const cutAt of [0.6, 0.4]) {
        expect(Math.abs(widthOf(sd, cutAt) - whole)).toBeLessThan(0.35 * whole);
      }
    },
  );
});
