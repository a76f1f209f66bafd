import { describe, expect, it } from 'vitest';
import { toMillivolt } from '../../src/signal/millivolt.js';
import type { Channel } from '../../src/signal/waveform.js';
import { hertz } from '../../src/units/brands.js';

const channel = (unit: string, value: number): Channel => ({
  label: 'II',
  unit,
  samplingRate: hertz(250),
  samples: Float64Array.of(value, Number.NaN),
});

describe('an ECG channel in millivolt', () => {
  it.each([
    ['nV', 1_500_000],
    ['uV', 1500],
    ['\u00b5V', 1500],
    ['\u03bcV', 1500],
    ['mV', 1.5],
    ['V', 0.0015],
  ])('is converted from %s, and what is missing stays missing', (unit, value) => {
    const outcome = toMillivolt(channel(unit, value), 'ecg.edf');
    expect(outcome.ok && outcome.value.unit).toBe('mV');
    expect(outcome.ok && [...outcome.value.samples]).toEqual([1.5, Number.NaN]);
  });

  it.each(['', 'mmHg', 'MV', 'mv', 'toString'])('is refused in the unit "%s"', (unit) => {
    expect(toMillivolt(channel(unit, 1), 'ecg.edf')).toMatchObject({
      ok: false,
      problems: [{ file: 'ecg.edf', field: 'II' }],
    });
  });
});
