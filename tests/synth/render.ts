import type { BeatKind, BeatPlan, Wave, WaveName } from './beat-plan.js';

/** How much of each lead II wave another lead sees. */
type Projection = Readonly<Record<WaveName, number>>;

export type Lead = 'I' | 'II' | 'aVF';

const NARROW: Readonly<Record<Lead, Projection>> = {
  I: { P: 0.45, Q: 0.6, R: 0.36, S: 0.5, T: 0.4 },
  II: { P: 1, Q: 1, R: 1, S: 1, T: 1 },
  aVF: { P: 0.8, Q: 0.9, R: 0.88, S: 1, T: 0.85 },
};

const WIDE: Readonly<Record<Lead, Projection>> = {
  I: { P: 0.45, Q: 0.4, R: 0.3, S: 0.9, T: 0.35 },
  II: { P: 1, Q: 1, R: 1, S: 1, T: 1 },
  aVF: { P: 0.8, Q: 0.9, R: 0.92, S: 0.7, T: 0.9 },
};

/** Fibrillation has no fixed axis; every other lead sees a share of it. */
const RIPPLE: Readonly<Record<Lead, number>> = { I: 0.6, II: 1, aVF: 0.9 };

/**
 * The plan as one noiseless lead: mV at `samplingRate` Hz, sample i at i / samplingRate s.
 *
 * Taken from the dynamical model of McSharry PE, Clifford GD, Tarassenko L, Smith LA, "A dynamical
 * model for generating synthetic electrocardiogram signals", IEEE Trans Biomed Eng 50(3):289-294
 * (2003): a beat is five events P, Q, R, S and T, each with a place in the cycle, a height and a
 * width, and the trace is the sum of the Gaussians that they leave. In the model
 * dz/dt = -sum a_i dtheta_i exp(-dtheta_i^2 / 2 b_i^2) - (z - z0); without its relaxation term this
 * integrates to z = sum (a_i b_i^2 / omega) exp(-dtheta_i^2 / 2 b_i^2), which is what is summed here.
 *
 * What departs: the sum is evaluated in closed form, with no integration and no relaxation to z0
 * (wander is added as noise); places and widths are seconds from R rather than angles on a circle,
 * so they do not stretch with the RR interval (the templates shorten PR and QT by a rule of their
 * own); R times come from an explicit list in place of a random RR spectrum; a wave may be missing,
 * may belong to no beat, and may fall at another speed than it rose.
 */
export function renderLead(plan: BeatPlan, samplingRate: number, lead: Lead = 'II'): Float64Array {
  const samples = new Float64Array(Math.round(plan.duration * samplingRate));
  for (const beat of plan.beats) {
    const seen = projectionOf(beat.kind, lead);
    for (const name of ['P', 'Q', 'R', 'S', 'T'] as const) {
      const wave = beat[name];
      if (wave) addWave(samples, samplingRate, beat.time, wave, seen[name]);
    }
  }
  for (const { time, wave } of plan.lonePWaves) {
    addWave(samples, samplingRate, time, wave, NARROW[lead].P);
  }
  for (const { amplitude, frequency, phase } of plan.ripples) {
    for (let i = 0; i < samples.length; i += 1) {
      const angle = (2 * Math.PI * frequency * i) / samplingRate + phase;
      samples[i]! += RIPPLE[lead] * amplitude * Math.sin(angle);
    }
  }
  return samples;
}

function projectionOf(kind: BeatKind, lead: Lead): Projection {
  return kind === 'ventricular' ? WIDE[lead] : NARROW[lead];
}

/** Beyond this many standard deviations a 5 mV wave is under a ten-thousandth of a microvolt. */
const REACH = 8;

function addWave(
  samples: Float64Array,
  samplingRate: number,
  reference: number,
  wave: Wave,
  share: number,
): void {
  const peak = reference + wave.centre;
  const first = Math.max(0, Math.ceil((peak - REACH * wave.rise) * samplingRate));
  const last = Math.min(samples.length - 1, Math.floor((peak + REACH * wave.fall) * samplingRate));
  for (let i = first; i <= last; i += 1) {
    const away = i / samplingRate - peak;
    const widths = away / (away < 0 ? wave.rise : wave.fall);
    samples[i]! += share * wave.amplitude * Math.exp(-0.5 * widths * widths);
  }
}
