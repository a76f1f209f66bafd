import { type Breaths, usualPeriod } from '../../../src/signal/breath/breaths.js';
import type { BeatKind, BeatWaves, Wave } from '../../../src/signal/marked-beat.js';
import { reason } from '../../../src/signal/reason.js';
import type { Channel } from '../../../src/signal/waveform.js';
import { hertz, millivolt, seconds } from '../../../src/units/brands.js';
import type { BeatPlan, Breath } from '../../synth/beat-plan.js';
import { type Random, randomFrom } from '../../synth/random.js';
import { firings } from '../../synth/rhythms/pacing.js';
import { type Span as TrueSpan, truthOf } from '../../synth/truth.js';

/** Breaths of a patient that breathes by itself: each a little longer or shorter than the last. */
export function ownBreaths(perMinute: number, duration: number, random: Random): Breath[] {
  const breaths: Breath[] = [];
  let time = 0.5;
  while (time < duration) {
    const length = (60 / perMinute) * (1 + 0.12 * random.gaussian());
    breaths.push({ time, inspiration: length / 3 });
    time += length;
  }
  return breaths;
}

/** Beats of a sinus node whose rate swings by `depth` (share of the mean, each way) with the breaths. */
export function swingingBeats(
  breaths: readonly Breath[],
  { rate, depth, duration, seed }: { rate: number; depth: number; duration: number; seed: number },
): { time: number }[] {
  const rateAt = (time: number): number => {
    const next = breaths.findIndex((breath) => breath.time > time);
    const from = breaths[next - 1];
    const to = breaths[next];
    const turn = from && to ? (time - from.time) / (to.time - from.time) : 0;
    return rate * (1 + depth * Math.cos(2 * Math.PI * (turn - 0.35)));
  };
  return firings({ rateAt, jitter: 0.012, from: 0, to: duration, random: randomFrom(seed) });
}

export const everything = (duration: number) => [{ from: 0, to: duration }];

export function stated(breaths: readonly Breath[]): Breaths {
  const times = breaths.map(({ time }) => time);
  return {
    times,
    period: usualPeriod(times),
    source: 'stated',
    fromInspiration: true,
    confidence: 1,
    because: reason('breaths of the record', { count: times.length }),
  };
}

export const beatsOf = ({ beats }: BeatPlan): { time: number }[] =>
  beats.map(({ time }) => ({ time }));

export function channel(
  label: string,
  unit: string,
  samplingRate: number,
  samples: Float64Array,
): Channel {
  return { label, unit, samplingRate: hertz(samplingRate), samples };
}

/** The same with the kind that a marker of beats would give. */
export const kindsOf = ({ beats }: BeatPlan): { time: number; kind: BeatKind }[] =>
  beats.map(({ time, kind, P }) => ({
    time,
    kind:
      kind === 'ventricular'
        ? 'ventricular premature'
        : kind === 'supraventricular' && P
          ? 'supraventricular premature'
          : kind === 'sinus'
            ? 'sinus'
            : 'unclassified',
  }));

/** The beats as a perfect marker would hand them on. */
export function wavesOf(plan: BeatPlan): BeatWaves[] {
  const { beats } = truthOf(plan);
  return beats.map((beat) => {
    const planned = plan.beats.find(({ time }) => time === beat.time);
    const wave = (span: TrueSpan | null, height: number | undefined): Wave | null =>
      span && height !== undefined
        ? {
            onset: seconds(span.onset),
            peak: seconds(span.peak),
            end: seconds(span.end),
            height: millivolt(height),
            confidence: 1,
          }
        : null;
    return {
      time: seconds(beat.time),
      p: wave(beat.p, planned?.P?.amplitude),
      qrs: wave(beat.qrs, planned?.R.amplitude),
      t: wave(beat.t, planned?.T?.amplitude),
    };
  });
}
