import type { Bpm, Hertz, Seconds } from '../units/brands.js';
import type { BreathEvidence } from './breath/breaths.js';
import type { BreathLink } from './breath/link.js';
import type { NormalVariant } from './breath/normal-variant.js';
import type { BeatKind, BeatWaves, Patient, Wave } from './marked-beat.js';
import type { Measurements } from './measures/measure.js';
import type { PulseEvidence } from './pulse/find-pulses.js';
import type { Span } from './quality/span.js';
import type { WindowSpread } from './rate/short-window.js';
import type { Variability } from './rate/variability.js';
import type { RangeUsed, Reason } from './reason.js';
import type { Pattern, Possible, RulingName, WithinName } from './rhythm/rhythm.js';

/** What the reading of a strip may depend on beside its leads. */
export interface StripContext {
  readonly patient: Patient;
  /** What the file and the record tell of the breath. */
  readonly breath: Pick<BreathEvidence, 'annotations' | 'channels' | 'ventilatorRate'>;
  /** What the file and the record tell of the pulse; left out where they tell nothing. */
  readonly pulse?: PulseEvidence;
}

/** Why a part of the analysis is null. */
export type Withheld =
  /** No lead was given, or none holds a sample. */
  | 'no samples'
  /** No stretch can be read. */
  | 'nothing readable'
  /** No two beats were seen with everything between them. */
  | 'fewer than two beats'
  /** What was found need not be beats: see `countedStretches`. */
  | 'beats in doubt'
  /** No readable stretch is as long as the window. */
  | 'strip too short';

/** One beat; a wave that is absent, or that noise hides, is null. */
export interface AnalysedBeat extends BeatWaves {
  /** Where it began; `unclassified` where that cannot be told. */
  readonly kind: BeatKind;
}

/** The rhythm of one stretch. */
export interface FoundRhythm {
  /** `cannot be told` and `not readable` where no rhythm is named. */
  readonly name: RulingName | 'cannot be told' | 'not readable';
  readonly from: Seconds;
  readonly to: Seconds;
  /** 0 to 1; null where no rhythm is named. */
  readonly confidence: number | null;
  /** What it may be where no rhythm is named, as far as that can be said. */
  readonly possible: readonly Possible[];
  /** The reasons, each with its numbers. */
  readonly because: readonly Reason[];
  /** The range that the rate was held against; null where none was needed. */
  readonly range: RangeUsed | null;
  /** Premature beats, runs and pauses within the rhythm. */
  readonly within: readonly RhythmEvent[];
}

/** Premature beats, a run or a pause within a rhythm, with the times of their beats in seconds. */
export interface RhythmEvent {
  readonly name: WithinName;
  readonly from: Seconds;
  readonly to: Seconds;
  readonly confidence: number;
  readonly because: readonly Reason[];
  readonly patterns: readonly Pattern[];
  /** R times of its beats, and times of early P waves without QRS. */
  readonly beats: readonly Seconds[];
}

/** What the rate was. Nothing in it is counted across a stretch that cannot be read, or whose beats need not be beats: see `countedStretches`. */
interface StripRate {
  /** Over all that was counted: 60 · intervals / the time that they fill. */
  readonly mean: Bpm;
  /** The shortest RR interval in s; the fastest beat-to-beat rate is 60 over it. */
  readonly shortest: Seconds;
  /** The longest RR interval in s; the slowest beat-to-beat rate is 60 over it. */
  readonly longest: Seconds;
  /** What a count over 6 s would have shown, lowest and highest; null where no run lasts 6 s. */
  readonly shortWindow: WindowSpread | null;
  /** The shortest whole-second window that shows the mean rate within 5 % wherever it is counted. */
  readonly longEnough: Seconds | null;
  /** The shortest whole-second window from which on every longer one shows it too. */
  readonly steadyFrom: Seconds | null;
}

/**
 * Everything that is read from one strip; times in s after the first sample. JSON keeps it whole: no
 * NaN, no typed array.
 */
export interface StripAnalysis {
  /** Of the first lead. */
  readonly samplingRate: Hertz;
  /** Of the longest lead. */
  readonly duration: Seconds;
  readonly quality: {
    /** Share of the strip that at least one lead shows readably, 0-1. */
    readonly readable: number;
    /** The whole strip without hole or overlap. */
    readonly spans: readonly Span[];
  };
  /** In order of time. */
  readonly beats: readonly AnalysedBeat[];
  /** P waves that no QRS of their own follows (blocked or dissociated), in order of time. */
  readonly loneP: readonly Wave[];
  readonly rate: StripRate | null;
  /** How the intervals between sinus beats vary, where a sinus rhythm was named. */
  readonly variability: Variability | null;
  /** Intervals, heights and the axis over all beats. */
  readonly measures: Measurements;
  /** Whether the beats go with the breath. */
  readonly breath: BreathLink;
  /** Whether the link is a normal variant, or what is missing to call it one; null where the beats are not linked. */
  readonly variant: NormalVariant | null;
  /** The strip from end to end, each stretch with its rhythm or the reason why it has no name. */
  readonly rhythms: readonly FoundRhythm[];
  /** The reason for each null among the rates; null where there is a value. */
  readonly because: {
    readonly rate: Withheld | null;
    readonly shortWindow: Withheld | null;
    readonly longEnough: Withheld | null;
    readonly steadyFrom: Withheld | null;
    readonly variability: 'too few sinus intervals' | null;
  };
}
