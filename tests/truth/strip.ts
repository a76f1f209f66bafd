import type { Channel } from '../../src/signal/waveform.js';
import { hertz, seconds } from '../../src/units/brands.js';
import type { BeatPlan } from '../synth/beat-plan.js';
import {
  makeNoise,
  NOISE_LEVELS,
  type Noise,
  type NoiseKind,
  type NoiseLevel,
  withNoise,
} from '../synth/noise.js';
import { randomFrom } from '../synth/random.js';
import { type Lead, renderLead } from '../synth/render.js';
import { TRUE_RHYTHMS, type TrueName, type TrueRhythm } from './catalogue.js';

export const SPECIES = ['dog', 'cat'] as const;
export const NOISES = ['clean', ...(Object.keys(NOISE_LEVELS) as NoiseKind[])] as const;
/** 0 is the recorder's hiss alone, then mild, moderate, severe. */
export const LEVELS = [0, 1, 2, 3] as const;
export const LEVEL_NAMES = ['clean', 'mild', 'moderate', 'severe'] as const;
export const LEAD_COUNTS = [3, 1] as const;

export const DURATION = 20;
export const SAMPLING_RATE = 500;
/** Root mean square of the recorder's own hiss, mV. */
export const HISS = 0.006;

/** All that a strip is made from, beside the base. */
export interface StripKey {
  readonly rhythm: TrueName;
  readonly species: (typeof SPECIES)[number];
  readonly noise: (typeof NOISES)[number];
  readonly level: (typeof LEVELS)[number];
  /** From 1. */
  readonly seed: number;
  readonly leads: (typeof LEAD_COUNTS)[number];
}

export interface Strip {
  readonly plan: BeatPlan;
  readonly leads: readonly Channel[];
  readonly breaths: readonly { onset: ReturnType<typeof seconds>; duration: null; text: string }[];
  /** Drawn rate, beats/min. */
  readonly rate: number;
}

/** What happens in the strip of a key, and the rate that was drawn for it. */
export function planOf(key: StripKey, base: number): Pick<Strip, 'plan' | 'rate'> {
  const { rhythm, species } = key;
  const seed = seedOf(key, base);
  const truth: TrueRhythm = TRUE_RHYTHMS[rhythm];
  const [low, high] = truth.rates[species];
  const rate = randomFrom(seed ^ 0x9e3779b9).between(low, high);
  const setting = { species, duration: DURATION, seed, ...(rate > 0 && { rate }) };
  return { plan: truth.plan(setting), rate };
}

/** The strip of a key: the same base and key give the same samples. Leads look at one and the same heart. */
export function stripOf(key: StripKey, base: number): Strip {
  const { plan, rate } = planOf(key, base);
  const seed = seedOf(key, base);
  return {
    plan,
    rate,
    leads: (['II', 'I', 'aVF'] as const)
      .slice(0, key.leads)
      .map((lead, i) => channel(plan, lead, noisesOn(key, seed, i))),
    breaths: plan.breaths.map(({ time }) => ({
      onset: seconds(time),
      duration: null,
      text: 'breath',
    })),
  };
}

function channel(plan: BeatPlan, lead: Lead, noises: readonly Noise[]): Channel {
  const samples = withNoise(renderLead(plan, SAMPLING_RATE, lead), ...noises);
  return { label: lead, unit: 'mV', samplingRate: hertz(SAMPLING_RATE), samples };
}

const LEVEL: readonly (NoiseLevel | null)[] = [null, 'mild', 'moderate', 'severe'];

/** A jolt or a burst strikes all leads at once, each with a strength of its own; other noise is each lead's own. */
function noisesOn({ noise, level }: StripKey, seed: number, lead: number): Noise[] {
  const length = Math.round(DURATION * SAMPLING_RATE);
  const make = (kind: NoiseKind, amplitude: number, stream: number): Noise =>
    makeNoise(kind, {
      length,
      samplingRate: SAMPLING_RATE,
      amplitude,
      random: randomFrom(seed + stream * 7919),
    });
  const hiss = make('muscle', HISS, 1 + lead);
  const strength = LEVEL[level];
  if (noise === 'clean' || !strength) return [hiss];
  const amplitude = NOISE_LEVELS[noise][strength];
  if (noise !== 'motion' && noise !== 'electrosurgery') {
    return [hiss, make(noise, amplitude, 11 + lead)];
  }
  const share = lead === 0 ? 1 : randomFrom(seed + lead).between(0.4, 1.2);
  return [hiss, make(noise, amplitude * share, 11)];
}

/** FNV-1a over the key without its leads, 31 bits. */
function seedOf({ rhythm, species, noise, level, seed }: StripKey, base: number): number {
  let hash = 0x811c9dc5;
  for (const letter of `${base}|${rhythm}|${species}|${noise}|${level}|${seed}`) {
    hash = Math.imul(hash ^ letter.charCodeAt(0), 0x01000193);
  }
  return hash >>> 1;
}
