import type { BeatWaves, Patient, Wave } from '../../../src/signal/marked-beat.js';
import type { Span } from '../../../src/signal/quality/span.js';
import type { BreathVerdict } from '../../../src/signal/rhythm/evidence/evidence.js';
import type { RhythmInput } from '../../../src/signal/rhythm/spans.js';
import type { Channel } from '../../../src/signal/waveform.js';
import { hertz, kilogram, millivolt, seconds } from '../../../src/units/brands.js';
import type { BeatPlan } from '../../synth/beat-plan.js';
import { makeNoise, type NoiseKind, withNoise } from '../../synth/noise.js';
import { type Random, randomFrom } from '../../synth/random.js';
import { type Lead, renderLead } from '../../synth/render.js';
import { type Span as TruthSpan, truthOf } from '../../synth/truth.js';

const FS = 500;
const LEADS: readonly Lead[] = ['II', 'I', 'aVF'];

export function patientOf(species: Patient['species']): Patient {
  return {
    species,
    weight: kilogram({ dog: 12, cat: 4, rabbit: 2, ferret: 1 }[species]),
    ageYears: 4,
    anesthetised: true,
  };
}

export interface NoiseWish {
  readonly kind: NoiseKind;
  /** mV. */
  readonly amplitude: number;
}

/** Three leads of a plan, each with noise of its own and a little hiss. */
export function renderedLeads(
  plan: BeatPlan,
  seed: number,
  noises: readonly NoiseWish[],
): Channel[] {
  return LEADS.map((lead, i) => {
    const clean = renderLead(plan, FS, lead);
    const made = [{ kind: 'muscle' as const, amplitude: 0.006 }, ...noises].map(
      ({ kind, amplitude }, k) =>
        makeNoise(kind, {
          length: clean.length,
          samplingRate: FS,
          amplitude,
          random: randomFrom(7919 * seed + 31 * k + i),
        }),
    );
    return {
      label: lead,
      unit: 'mV',
      samplingRate: hertz(FS),
      samples: withNoise(clean, ...made),
    };
  });
}

/** How badly waves and beats are read. Shares 0 to 1, times in s (standard deviation). */
export interface Misreading {
  readonly missedBeats: number;
  readonly missedP: number;
  readonly strayP: number;
  readonly jitter: number;
}

const PERFECT: Misreading = { missedBeats: 0, missedP: 0, strayP: 0, jitter: 0 };
export const CARELESS: Misreading = {
  missedBeats: 0.01,
  missedP: 0.05,
  strayP: 0.03,
  jitter: 0.002,
};

/** A strip whose waves come from the plan's truth, misread as asked. */
export function stripFromTruth(
  plan: BeatPlan,
  seed: number,
  {
    misread = PERFECT,
    noises = [] as readonly NoiseWish[],
    breath = 'cannot tell' as BreathVerdict,
  } = {},
): RhythmInput {
  const truth = truthOf(plan);
  const random = randomFrom(seed ^ 0x5bd1e995);
  const leads = renderedLeads(plan, seed, noises);
  const lead = leads[0]!;
  const heightAt = (time: number): number => lead.samples[Math.round(time * FS)] ?? 0;
  const wave = (span: TruthSpan | null): Wave | null =>
    span && {
      onset: seconds(span.onset + misread.jitter * random.gaussian()),
      peak: seconds(span.peak),
      end: seconds(span.end + misread.jitter * random.gaussian()),
      height: millivolt(heightAt(span.peak) - heightAt(span.onset)),
      confidence: 0.9,
    };
  const beats = truth.beats
    .filter(() => random.next() >= misread.missedBeats)
    .map((beat): BeatWaves => {
      const p = random.next() < misread.missedP ? null : wave(beat.p);
      return {
        time: seconds(beat.time + misread.jitter * random.gaussian()),
        p: p ?? (random.next() < misread.strayP ? strayP(beat.time, random) : null),
        qrs: wave(beat.qrs),
        t: wave(beat.t),
      };
    });
  const loneP = truth.lonePWaves
    .filter(() => random.next() >= misread.missedP)
    .map((span) => wave(span)!);
  return {
    leads,
    readable: wholly(plan.duration),
    beats,
    loneP,
    patient: patientOf(plan.species),
    breath,
    pulses: [],
  };
}

function strayP(before: number, random: Random): Wave {
  const peak = before - random.between(0.06, 0.18);
  return {
    onset: seconds(peak - 0.02),
    peak: seconds(peak),
    end: seconds(peak + 0.02),
    height: millivolt(0.08),
    confidence: 0.2,
  };
}

function wholly(duration: number): Span[] {
  return [{ from: seconds(0), to: seconds(duration), readable: true, why: '' }];
}
