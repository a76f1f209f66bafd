import { describe, expect, it } from 'vitest';
import { findPulses } from '../../../src/signal/pulse/find-pulses.js';
import { type PulseVerdict, pulseOver } from '../../../src/signal/pulse/pulse.js';
import type { PulseReading } from '../../../src/signal/pulse/reading-pulse.js';
import type { Channel } from '../../../src/signal/waveform.js';
import { hertz } from '../../../src/units/brands.js';
import { arterialPressure, type PulsePlan, plethysmogram } from '../../synth/pulse-wave.js';
import { randomFrom } from '../../synth/random.js';

const FS = 100;
const beating = (rate: number, from: number, to: number): number[] =>
  Array.from({ length: Math.floor(((to - from) * rate) / 60) }, (_, i) => from + (i * 60) / rate);
const plan = (beats: readonly number[], duration = 40): PulsePlan => ({
  duration,
  samplingRate: FS,
  beats,
  random: randomFrom(4101),
});
const channel = (label: string, unit: string, samples: Float64Array): Channel => ({
  label,
  unit,
  samplingRate: hertz(FS),
  samples,
});
const art = (samples: Float64Array) => channel('ART', 'mmHg', samples);
const pleth = (samples: Float64Array) => channel('PLETH', '', samples);
const told = (
  channels: readonly Channel[],
  from: number,
  to: number,
  readings: readonly PulseReading[] = [],
): PulseVerdict => pulseOver(findPulses({ channels, readings }), from, to);

describe.each([60, 110, 180, 260])('a heart of %i/min', (rate) => {
  const throughout = plan(beating(rate, 0.3, 40));
  const stopped = plan(beating(rate, 0.3, 20));
  const stroke = { stroke: rate > 150 ? 18 : 28 };

  it('has a pulse on the arterial pressure and on the plethysmogram, for as long as it beats', () => {
    expect(told([art(arterialPressure(throughout, stroke))], 5, 35)).toBe('present');
    expect(told([pleth(plethysmogram(throughout))], 5, 35)).toBe('present');
  });

  it('has none on an arterial pressure that runs off after its last beat', () => {
    const pressure = art(arterialPressure(stopped, stroke));
    expect(told([pressure], 20.3, 40)).toBe('absent');
    expect(told([pressure], 5, 19)).toBe('present');
    expect(told([pressure], 10, 40)).toBe('changes');
  });

  it('leaves open what a plethysmogram alone that went flat shows', () => {
    expect(told([pleth(plethysmogram(stopped))], 20.3, 40)).toBe('cannot tell');
  });
});

describe('an arterial pressure without a pulse', () => {
  const stopped = plan(beating(100, 0.3, 20));
  const wave = arterialPressure(stopped);
  const after = (level: (since: number, at: number) => number) =>
    art(wave.map((value, i) => (i / FS < 20.4 ? value : level(i / FS - 20.4, i))));

  it.each<[string, (since: number, at: number) => number, string]>([
    ['that fell to zero at once', () => 0, 'pressure falls at once'],
    ['that stays near its mean', (_, i) => 84 + 0.2 * Math.sin(i), 'pressure is blocked'],
    ['that is flushed', (since) => (since < 5 ? 290 : 84), 'pressure is disturbed'],
    ['that is slowly opened to air', (since) => 70 * Math.exp(-since), 'pressure is open to air'],
  ])('%s proves nothing', (_, level, key) => {
    const pulses = findPulses({ channels: [after(level)] });
    expect(pulseOver(pulses, 20.3, 40)).toBe('cannot tell');
    expect(pulses.flatMap(({ because }) => because.map((each) => each.key))).toContain(key);
  });

  it('and never with one, proves nothing', () => {
    expect(told([art(new Float64Array(4000).fill(12))], 5, 35)).toBe('not recorded');
  });

  it('under a plethysmogram that pulses on, is one channel against another', () => {
    const both = [art(wave), pleth(plethysmogram(plan(beating(100, 0.3, 40))))];
    expect(told(both, 20.3, 40)).toBe('changes');
  });

  it('is told no further than to a gap in the recording', () => {
    const gap = art(wave.map((value, i) => (i > 2600 ? Number.NaN : value)));
    expect(told([gap], 20.3, 40)).toBe('cannot tell');
    expect(told([gap], 20.3, 26)).toBe('absent');
  });

  it('swings with the ventilator, which is no pulse', () => {
    const swings = art(wave.map((v, i) => v + 3 * Math.sin((2 * Math.PI * i) / (FS * 4))));
    expect(told([swings], 20.3, 40)).toBe('absent');
  });
});

describe('noise', () => {
  it('on any channel is no pulse', () => {
    const random = randomFrom(4102);
    const noise = Float64Array.from({ length: 4000 }, () => 60 + 30 * random.gaussian());
    expect(['not recorded', 'cannot tell']).toContain(told([art(noise)], 5, 35));
    expect(['not recorded', 'cannot tell']).toContain(told([pleth(noise)], 5, 35));
  });

  it('of a sensor that is off the patient is no pulse', () => {
    const random = randomFrom(4103);
    const hiss = Float64Array.from({ length: 4000 }, () => 0.01 * random.gaussian());
    expect(['not recorded', 'cannot tell']).toContain(told([pleth(hiss)], 5, 35));
  });
});

describe('other channels', () => {
  const wave = arterialPressure(plan(beating(100, 0.3, 20)));
  it.each(['CVP', 'airway pressure', 'CO2 [ART]', 'II'])('such as %s are not read', (label) => {
    expect(findPulses({ channels: [channel(label, 'mmHg', wave)] })).toEqual([]);
  });

  it('in kilopascal are read alike', () => {
    const kPa = channel(
      'ABP',
      'kPa',
      wave.map((value) => value / 7.50062),
    );
    expect(told([kPa], 20.3, 40)).toBe('absent');
  });

  it('such as a flat capnogram are told, and prove nothing', () => {
    const flat = channel('CO2', 'mmHg', new Float64Array(4000).fill(1));
    expect(told([flat], 5, 35)).toBe('cannot tell');
  });
});

describe('readings', () => {
  const reading = (
    second: number,
    value: number,
    of: PulseReading['of'] = 'mean pressure',
  ): PulseReading => ({ second, value, of, line: 9 });

  it('of a pressure show a pulse where their whole minute lies within the stretch', () => {
    expect(told([], 0, 300, [reading(120, 78)])).toBe('present');
    expect(told([], 100, 140, [reading(120, 78)])).toBe('cannot tell');
    expect(told([], 0, 300, [reading(120, 110, 'systolic pressure')])).toBe('present');
  });

  it.each([
    ['a low pressure', reading(120, 18)],
    ['oxygen saturation', reading(120, 97, 'oxygen saturation')],
    ['hardly any CO2', reading(120, 2, 'end-tidal CO2')],
  ])('of %s prove nothing alone', (_, low) => {
    expect(told([], 0, 300, [low])).toBe('cannot tell');
  });

  it('of a pressure that fell prove that a lost plethysmogram lost the pulse', () => {
    const lost = pleth(plethysmogram(plan(beating(100, 0.3, 20))));
    expect(told([lost], 20.3, 40, [reading(-240, 72), reading(60, 18)])).toBe('absent');
    // A line that came off reads zero; one that never read more may not be on the patient.
    expect(told([lost], 20.3, 40, [reading(-240, 72), reading(60, 0)])).toBe('cannot tell');
    expect(told([lost], 20.3, 40, [reading(60, 18)])).toBe('cannot tell');
    expect(told([lost], 20.3, 40, [reading(-240, 72), reading(60, 64)])).toBe('cannot tell');
  });
});
