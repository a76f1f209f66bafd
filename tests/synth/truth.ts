import type { BeatKind, BeatPlan, Breath, PlannedBeat, Wave } from './beat-plan.js';

/**
 * A wave begins and ends where its own Gaussian has fallen to this fraction of its own height:
 * 5 %, which is `EDGE_IN_WIDTHS` = sqrt(2 ln 20) standard deviations from its centre.
 * A QRS runs from the first beginning to the last end among its Q, R and S waves.
 */
const EDGE_FRACTION = 0.05;
export const EDGE_IN_WIDTHS = Math.sqrt(-2 * Math.log(EDGE_FRACTION));

/** Seconds from the first sample. */
export interface Span {
  readonly onset: number;
  /** For P and T the centre of the Gaussian; for a QRS the centre of its R wave. */
  readonly peak: number;
  readonly end: number;
}

export interface BeatTruth {
  /** R centre, s. */
  readonly time: number;
  readonly kind: BeatKind;
  readonly p: Span | null;
  readonly qrs: Span;
  readonly t: Span | null;
}

/** What a perfect reader of the recording would report. Beats and waves are in ascending time. */
export interface Truth {
  readonly beats: readonly BeatTruth[];
  /** P waves that belong to no beat. */
  readonly lonePWaves: readonly Span[];
  readonly breaths: readonly Breath[];
}

/** The truth of a plan, kept to what lies wholly inside the recording: a cut QRS is no beat. */
export function truthOf(plan: BeatPlan): Truth {
  const inside = (span: Span): boolean => span.onset >= 0 && span.end <= plan.duration;
  const whole = (span: Span | null): Span | null => (span && inside(span) ? span : null);
  return {
    beats: plan.beats
      .map((beat) => beatTruth(beat))
      .filter((beat) => inside(beat.qrs))
      .map((beat) => ({ ...beat, p: whole(beat.p), t: whole(beat.t) })),
    lonePWaves: plan.lonePWaves.map(({ time, wave }) => spanOf(wave, time)).filter(inside),
    breaths: plan.breaths.filter(({ time }) => time >= 0 && time < plan.duration),
  };
}

/** Beats per minute over the whole recording: intervals counted over the time that they fill; NaN under 2 beats. */
export function meanRate(beats: readonly { readonly time: number }[]): number {
  const first = beats[0];
  const last = beats[beats.length - 1];
  if (!first || !last || beats.length < 2) return Number.NaN;
  return (60 * (beats.length - 1)) / (last.time - first.time);
}

function beatTruth(beat: PlannedBeat): BeatTruth {
  const parts = [beat.Q, beat.R, beat.S]
    .filter((wave) => wave !== null)
    .map((wave) => spanOf(wave, beat.time));
  return {
    time: beat.time,
    kind: beat.kind,
    p: beat.P && spanOf(beat.P, beat.time),
    qrs: {
      onset: Math.min(...parts.map(({ onset }) => onset)),
      peak: beat.time,
      end: Math.max(...parts.map(({ end }) => end)),
    },
    t: beat.T && spanOf(beat.T, beat.time),
  };
}

function spanOf(wave: Wave, reference: number): Span {
  const peak = reference + wave.centre;
  return {
    onset: peak - EDGE_IN_WIDTHS * wave.rise,
    peak,
    end: peak + EDGE_IN_WIDTHS * wave.fall,
  };
}
