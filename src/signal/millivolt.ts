import type { Outcome } from '../record/problem.js';
import { bad, good } from '../record/problem.js';
import type { Channel } from './waveform.js';

/** Micro has two code points that look alike: the micro sign and the Greek letter mu. */
const toMv: Readonly<Record<string, (value: number) => number>> = {
  nV: (value) => value / 1_000_000,
  uV: (value) => value / 1000,
  '\u00b5V': (value) => value / 1000,
  '\u03bcV': (value) => value / 1000,
  mV: (value) => value,
  V: (value) => value * 1000,
};

/** The same ECG channel in mV; a problem where its unit is not one of nV, uV, µV, mV and V. */
export function toMillivolt(channel: Channel, file: string): Outcome<Channel> {
  const convert = Object.hasOwn(toMv, channel.unit) ? toMv[channel.unit] : undefined;
  if (!convert) {
    return bad({
      kind: 'an ECG channel without a known unit',
      file,
      field: channel.label,
      found: channel.unit === '' ? 'no unit' : `the unit "${channel.unit}"`,
      expected: 'nV, uV, µV, mV or V for an ECG channel',
      mend: 'Name the unit where the file is made; without it no height in mV can be told.',
    });
  }
  return good({ ...channel, unit: 'mV', samples: channel.samples.map(convert) });
}
