import type { Random } from './random.js';

export type NoiseKind = 'wander' | 'mains' | 'muscle' | 'motion' | 'electrosurgery';
export type NoiseLevel = 'mild' | 'moderate' | 'severe';

/** How strong each kind is, mV. Our own choice, after the look of surgical recordings; no source. */
export const NOISE_LEVELS: Readonly<Record<NoiseKind, Readonly<Record<NoiseLevel, number>>>> = {
  /** Peak of the slow swing. */
  wander: { mild: 0.1, moderate: 0.4, severe: 1.2 },
  /** Peak of the power-line sine. */
  mains: { mild: 0.02, moderate: 0.1, severe: 0.3 },
  /** Root mean square. */
  muscle: { mild: 0.015, moderate: 0.06, severe: 0.2 },
  /** Peak of a jolt. */
  motion: { mild: 0.4, moderate: 1.2, severe: 3 },
  /** Peak of a burst. */
  electrosurgery: { mild: 0.4, moderate: 1.5, severe: 4 },
};

export interface Noise {
  /** mV, to be added to a lead sample by sample. */
  readonly samples: Float64Array;
  /** Where it acts, s from the first sample, ascending; the whole recording for kinds that never stop. */
  readonly spans: readonly { readonly from: number; readonly to: number }[];
}

export interface NoiseOptions {
  /** Number of samples. */
  readonly length: number;
  /** Hz. */
  readonly samplingRate: number;
  /** mV, in the sense that `NOISE_LEVELS` gives for the kind. */
  readonly amplitude: number;
  readonly random: Random;
  /** Power-line frequency, Hz. Defaults to 60. */
  readonly mains?: 50 | 60;
}

/** One kind of noise, the same for the same random stream. */
export function makeNoise(kind: NoiseKind, options: NoiseOptions): Noise {
  return MAKERS[kind](options);
}

/** `lead` plus each noise, mV. */
export function withNoise(lead: Float64Array, ...noises: readonly Noise[]): Float64Array {
  return lead.map((value, i) => noises.reduce((sum, noise) => sum + noise.samples[i]!, value));
}

const MAKERS: Readonly<Record<NoiseKind, (options: NoiseOptions) => Noise>> = {
  wander,
  mains,
  muscle,
  motion,
  electrosurgery,
};

/** Three slow sines under 0.5 Hz whose heights add up to the amplitude. */
function wander({ length, samplingRate, amplitude, random }: NoiseOptions): Noise {
  const parts = [0.5, 0.3, 0.2].map((share) => ({
    height: share * amplitude,
    frequency: random.between(0.08, 0.45),
    phase: random.between(0, 2 * Math.PI),
  }));
  return throughout(length, samplingRate, (time) =>
    parts.reduce(
      (sum, part) => sum + part.height * Math.sin(2 * Math.PI * part.frequency * time + part.phase),
      0,
    ),
  );
}

/** The power line and a tenth of its third harmonic, slowly waxing and waning. */
function mains(options: NoiseOptions): Noise {
  const { length, samplingRate, amplitude, random } = options;
  const omega = 2 * Math.PI * (options.mains ?? 60);
  const phase = random.between(0, 2 * Math.PI);
  const slow = random.between(0.03, 0.1);
  return throughout(length, samplingRate, (time) => {
    const strength = amplitude * (0.75 + 0.15 * Math.sin(2 * Math.PI * slow * time + phase));
    // A harmonic above half the sampling rate would fold back to a wrong frequency.
    const third = 3 * omega < Math.PI * samplingRate ? 0.1 * Math.sin(3 * omega * time + phase) : 0;
    return strength * (Math.sin(omega * time + phase) + third);
  });
}

/** White noise without its slow part, scaled to the wanted root mean square. */
function muscle({ length, samplingRate, amplitude, random }: NoiseOptions): Noise {
  const samples = new Float64Array(length);
  const follow = Math.min(1, (2 * Math.PI * 20) / samplingRate);
  let slow = 0;
  for (let i = 0; i < length; i += 1) {
    const white = random.gaussian();
    slow += follow * (white - slow);
    samples[i] = white - slow;
  }
  const rms = Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / length);
  return {
    samples: samples.map((value) => (value * amplitude) / rms),
    spans: [{ from: 0, to: length / samplingRate }],
  };
}

/** Jolts about every 8 s: the line jumps out within 50 ms, then swings back to rest, shaking. */
function motion({ length, samplingRate, amplitude, random }: NoiseOptions): Noise {
  const pace = { gap: [4, 12], long: [0.8, 2.2] } as const;
  return bursts(length, samplingRate, random, pace, (lasting) => {
    const height = amplitude * random.between(0.6, 1) * (random.next() < 0.5 ? -1 : 1);
    const shake = random.between(1.5, 4);
    return (since) => {
      const left = 1 - since / lasting;
      const jump = Math.min(1, since / 0.05);
      return height * jump * left * left * Math.cos(2 * Math.PI * shake * since);
    };
  });
}

/** Bursts of 1 to 4 s: a radio-frequency current folded down to a hiss, and a shift of the baseline. */
function electrosurgery({ length, samplingRate, amplitude, random }: NoiseOptions): Noise {
  const pace = { gap: [4, 10], long: [1, 4] } as const;
  return bursts(length, samplingRate, random, pace, () => {
    const shift = amplitude * random.between(-0.3, 0.3);
    const folded = random.between(0.15, 0.45) * samplingRate;
    return (since) =>
      shift +
      amplitude * (0.35 * Math.sin(2 * Math.PI * folded * since) + 0.35 * random.between(-1, 1));
  });
}

function throughout(length: number, samplingRate: number, at: (time: number) => number): Noise {
  return {
    samples: Float64Array.from({ length }, (_, i) => at(i / samplingRate)),
    spans: [{ from: 0, to: length / samplingRate }],
  };
}

/** Noise that comes and goes; `shape` is asked once a burst, then for each of its samples. */
function bursts(
  length: number,
  samplingRate: number,
  random: Random,
  { gap, long }: { gap: readonly [number, number]; long: readonly [number, number] },
  shape: (lasting: number) => (since: number) => number,
): Noise {
  const samples = new Float64Array(length);
  const spans: { from: number; to: number }[] = [];
  const duration = length / samplingRate;
  let from = random.between(1, gap[0]);
  while (from < duration) {
    const lasting = random.between(long[0], long[1]);
    const to = Math.min(duration, from + lasting);
    const at = shape(lasting);
    for (let i = Math.ceil(from * samplingRate); i < Math.min(length, to * samplingRate); i += 1) {
      samples[i] = at(i / samplingRate - from);
    }
    spans.push({ from, to });
    from = to + random.between(gap[0], gap[1]);
  }
  return { samples, spans };
}
