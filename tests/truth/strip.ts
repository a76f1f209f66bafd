import { level } from '../../src/signal/filter/excerpt.js';
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
import { TEMPLATES } from '../synth/templates.js';
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
  /** Share of the time in which a P would show: in one lead the noise is under a third of it. */
  readonly legible: number;
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
  const leads = (['II', 'I', 'aVF'] as const).slice(0, key.leads);
  const noises = leads.map((_, i) => noisesOn(key, seed, i));
  return {
    plan,
    rate,
    legible: legibleShare(leads, noises, key.species),
    leads: leads.map((lead, i) => channel(plan, lead, noises[i]!)),
    breaths: plan.breaths.map(({ time }) => ({
      onset: seconds(time),
      duration: null,
      text: 'breath',
    })),
  };
}

/** A part of the strip that is judged on its own, s. */
const PART = 0.2;
/** Of the height of P, in root mean square: more noise hides it. */
const HIDES_P = 1 / 3;
/** P of a lead over that of lead II. */
const P_SEEN: Readonly<Record<Lead, number>> = { II: 1, I: 0.45, aVF: 0.8 };

/** The slow part of the noise, which moves P as a whole, does not count. */
function legibleShare(
  leads: readonly Lead[],
  noises: readonly (readonly Noise[])[],
  species: StripKey['species'],
): number {
  const size = Math.round(PART * SAMPLING_RATE);
  const parts = Math.floor((DURATION * SAMPLING_RATE) / size);
  let legible = 0;
  for (let k = 0; k < parts; k += 1) {
    const isLegible = leads.some((lead, i) => {
      const sum = Float64Array.from({ length: size }, (_, j) =>
        noises[i]!.reduce((all, { samples }) => all + samples[k * size + j]!, 0),
      );
      const limit = HIDES_P * TEMPLATES[species].p.height * P_SEEN[lead];
      return Math.sqrt(level(sum).reduce((all, value) => all + value * value, 0) / size) <= limit;
    });
    if (isLegible) legible += 1;
  }
  return legible / parts;
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
