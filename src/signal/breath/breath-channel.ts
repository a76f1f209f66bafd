import { reason } from '../reason.js';
import type { Channel } from '../waveform.js';
import { type Breaths, FEWEST_STARTS, usualPeriod } from './breaths.js';
import { riseStarts, withoutDrift } from './rises.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

type Kind = 'capnogram' | 'impedance' | 'pressure';

interface Reading {
  readonly kind: Kind;
  readonly label: RegExp;
  /** Factor on the samples for each unit that can be told. */
  readonly units: Readonly<Record<string, number>>;
  /** In the unit with factor 1; a flatter wave shows no breath. Our own choice, no source. */
  readonly leastHeight: number;
  /** -1 where a breath begins with a fall. */
  readonly sense: 1 | -1;
  readonly drifts: boolean;
  readonly confidence: number;
  readonly because:
    | 'breaths of a capnogram'
    | 'breaths of chest impedance'
    | 'breaths of airway pressure';
}

/** A displayed trend (1 value a second or slower) has no breath in it, Hz. */
const SLOWEST_SAMPLING = 5;

/** No patient here breathes faster than 100/min for long: nearer starts are one breath, s. */
const SHORTEST_PERIOD = 0.6;

/** Baseline of an impedance trace moves with posture; a mean over this long follows it, s. */
const DRIFT_SECONDS = 15;

const READINGS: readonly Reading[] = [
  {
    kind: 'capnogram',
    label: /co2|capno/i,
    units: { mmHg: 1, kPa: 7.50062, '%': 7.6 },
    leastHeight: 8,
    // Inspiration begins at the rapid fall from the plateau (phase 0 or 4 of the capnogram, by author).
    sense: -1,
    drifts: false,
    confidence: 0.9,
    because: 'breaths of a capnogram',
  },
  {
    kind: 'impedance',
    label: /imped|resp|thora/i,
    units: { Ohm: 1, ohm: 1, '\u03a9': 1, '\u2126': 1, mOhm: 0.001, '': 1, mV: 1 },
    leastHeight: 0,
    sense: 1,
    drifts: true,
    confidence: 0.7,
    because: 'breaths of chest impedance',
  },
  {
    kind: 'pressure',
    label: /airway|paw|vent|press/i,
    units: { cmH2O: 1, mbar: 1.01972, hPa: 1.01972 },
    leastHeight: 3,
    sense: 1,
    drifts: false,
    confidence: 0.9,
    because: 'breaths of airway pressure',
  },
];

/** Breaths from the best breath channel of a file, or null where none shows enough of them. */
export function channelBreaths(channels: readonly Channel[]): Breaths | null {
  for (const reading of READINGS) {
    for (const channel of channels) {
      const breaths = read(channel, reading);
      if (breaths) return breaths;
    }
  }
  return null;
}

function read(channel: Channel, reading: Reading): Breaths | null {
  const factor = Object.hasOwn(reading.units, channel.unit)
    ? reading.units[channel.unit]
    : undefined;
  if (!reading.label.test(channel.label) || factor === undefined) return null;
  if (channel.samplingRate < SLOWEST_SAMPLING) return null;
  const upright = channel.samples.map((value) => value * factor * reading.sense);
  const wave = reading.drifts
    ? withoutDrift(upright, channel.samplingRate, DRIFT_SECONDS)
    : upright;
  const times: number[] = [];
  for (const start of riseStarts(wave, channel.samplingRate, reading.leastHeight)) {
    if (start - (times.at(-1) ?? Number.NEGATIVE_INFINITY) >= SHORTEST_PERIOD) times.push(start);
  }
  if (times.length < FEWEST_STARTS) return null;
  return {
    times,
    period: usualPeriod(times),
    source: reading.kind,
    fromInspiration: true,
    confidence: reading.confidence,
    because: reason(reading.because, { label: channel.label, count: times.length }),
  };
}
