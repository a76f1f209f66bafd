import type { VitalsChart } from '../draw/vitals/chart-data.js';
import type { ExerciseFacts } from '../facts/exercises.js';
import type { BeatKind } from '../signal/marked-beat.js';
import type { StripAnalysis } from '../signal/strip-analysis.js';
import type { ToldWave } from '../signal/told-beats.js';

/**
 * What the page of a case hands to its scripts. It is made from the same public facts as the page, and lies beside it
 * as a script of its own (`<page>.data.js`), because a page opened from a folder may not fetch.
 */
export interface LiveCase {
  /** BCP 47 tag of the page. */
  readonly language: string;
  /** What controls and answers say, by key of `content/<language>/live.yaml`; `{name}` stands for a value. */
  readonly words: Readonly<Record<string, string>>;
  /** The rhythms of its strips as learners call them, by the name in the analysis. */
  readonly rhythms: Readonly<Record<string, string>>;
  readonly strips: readonly LiveStrip[];
  readonly vitals: LiveVitals;
  /** What an answer is judged by, under the names of the questions on the page. */
  readonly exercises: readonly ExerciseFacts[];
  /** Where a moment of the piece with numbered beats stands on its drawing; null where the case has none. */
  readonly numbered: NumberedPiece | null;
}

/** In mm of the drawing: the piece's first moment, and a second of it. */
export interface NumberedPiece {
  readonly left: number;
  readonly second: number;
}

export interface LiveVitals {
  /** What the printed figure shows. */
  readonly chart: VitalsChart;
  /** For each series of the chart, in its order. */
  readonly series: readonly { readonly name: string; readonly unit: string }[];
  /** What each event of the chart was, in its order. */
  readonly events: readonly string[];
  /** Mean pressure under the limit over the whole record; null without a mean pressure. */
  readonly low: {
    readonly limit: number;
    readonly minutes: number;
    /** mmHg·min */
    readonly area: number;
  } | null;
}

export interface LiveStrip {
  /** Name of the figure on the page that it brings to life. */
  readonly figure: string;
  /** The lead that was read. */
  readonly lead: LiveLead;
  /** Other ECG leads of the file, which begin with it. */
  readonly others: readonly LiveLead[];
  /** Minute of anesthesia of its first sample; null where the record does not tell. */
  readonly begins: number | null;
  /** Times in s after the first sample, to 0.1 ms. */
  readonly analysis: LiveAnalysis;
}

/** What was read from the strip, without what no script uses. */
export interface LiveAnalysis extends Omit<StripAnalysis, 'beats'> {
  readonly beats: readonly LiveBeat[];
}

export interface LiveBeat {
  /** R peak. */
  readonly time: number;
  readonly kind: BeatKind;
  readonly p: ToldWave | null;
  readonly qrs: ToldWave | null;
  readonly t: ToldWave | null;
}

export interface LiveLead {
  readonly label: string;
  /** Hz. */
  readonly samplingRate: number;
  /** mV of one count. */
  readonly step: number;
  /** One count a sample, as `counts.ts` writes them. */
  readonly counts: string;
  /** Stretches without a valid sample: index of the first, and of the first valid one after it. */
  readonly missing: readonly (readonly [from: number, to: number])[];
}

/** The name under which a page's data stands on `globalThis`. */
export const LIVE_CASE = 'thriceCase';
