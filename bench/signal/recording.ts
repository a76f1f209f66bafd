import type { StripContext } from '../../src/signal/strip-analysis.js';
import type { Channel } from '../../src/signal/waveform.js';
import { hertz, kilogram } from '../../src/units/brands.js';
import { makeNoise, withNoise } from '../../tests/synth/noise.js';
import { randomFrom } from '../../tests/synth/random.js';
import { renderLead } from '../../tests/synth/render.js';
import { sinus } from '../../tests/synth/rhythms/sinus.js';

export const RATE = 500;
const HOUR = 3600;

export const DOG: StripContext = {
  patient: { species: 'dog', weight: kilogram(12), ageYears: 4, anesthetised: true },
  breath: {},
};

/** Lead II of a dog in sinus rhythm at 117/min (7,000 beats an hour) as an ordinary recorder shows it: wander, hum, muscle. */
export function recording(hours: number): Channel {
  const hour = anHour(Math.min(1, hours));
  const samples = new Float64Array(Math.round(hours * HOUR * RATE));
  for (let from = 0; from < samples.length; from += hour.length) {
    samples.set(hour.subarray(0, samples.length - from), from);
  }
  return { label: 'II', unit: 'mV', samplingRate: hertz(RATE), samples };
}

function anHour(part: number): Float64Array {
  const plan = sinus({ species: 'dog', duration: part * HOUR, seed: 7, rate: 117 });
  const clean = renderLead(plan, RATE);
  const options = { length: clean.length, samplingRate: RATE };
  return withNoise(
    clean,
    makeNoise('wander', { ...options, amplitude: 0.07, random: randomFrom(1) }),
    makeNoise('mains', { ...options, amplitude: 0.012, random: randomFrom(2) }),
    makeNoise('muscle', { ...options, amplitude: 0.006, random: randomFrom(3) }),
  );
}
