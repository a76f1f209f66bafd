import { roundTo } from '../units/round.js';
import type { BeatKind } from './marked-beat.js';
import { SURE_ENOUGH } from './measures/measure.js';

/** A wave as it is told beat by beat: times in s after the first sample. */
export interface ToldWave {
  readonly onset: number;
  readonly peak: number;
  readonly end: number;
  /** 0 to 1. */
  readonly confidence: number;
}

/** What is asked of a strip to tell its beats one by one. */
export interface BeatsToTell {
  readonly beats: readonly {
    /** R peak, s. */
    readonly time: number;
    readonly kind: BeatKind;
    readonly p: ToldWave | null;
    readonly qrs: ToldWave | null;
    readonly t: ToldWave | null;
  }[];
  readonly quality: {
    readonly spans: readonly {
      readonly from: number;
      readonly to: number;
      readonly readable: boolean;
    }[];
  };
  readonly rhythms: readonly {
    readonly from: number;
    readonly to: number;
    /** Null where no rhythm is named. */
    readonly confidence: number | null;
  }[];
}

/** How a beat's origin may be told, in the order of a key. */
export const TOLD_KINDS = [
  'sinus',
  'supraventricular premature',
  'ventricular premature',
  'ventricular',
  'junctional escape',
  'ventricular escape',
  'fusion',
  'aberrant',
  'unclassified',
  'withheld',
] as const satisfies readonly (BeatKind | 'withheld')[];
/** A beat's kind as the table of beats names it. */
export type ToldKind = (typeof TOLD_KINDS)[number];

/** One beat in words and numbers; what the marks do not support is withheld. */
export interface ToldBeat {
  /** From 1. */
  readonly number: number;
  /** R peak, s. */
  readonly time: number;
  /** `withheld` for a beat that would be called sinus in a stretch where no rhythm could be named. */
  readonly kind: ToldKind;
  /** s from the beat before; a reason where there is none. */
  readonly rr: number | 'first beat' | 'not readable between';
  /** `unsure` waves are marked and not measured; `not seen` is absent or hidden by noise. */
  readonly p: 'seen' | 'unsure' | 'not seen';
  /** Onset of P to onset of QRS, s; null where one of the marks is missing or unsure, as for the next two. */
  readonly pr: number | null;
  /** s. */
  readonly qrs: number | null;
  /** Onset of QRS to end of T, s. */
  readonly qt: number | null;
}

/** Decimals of a time in s that marks are told with: 0.1 ms. Not a clinical number. */
export const TOLD_PLACES = 4;

const told = (time: number): number => roundTo(time, TOLD_PLACES);

/** Difference of two times as they are told, so that page and script say the same. */
const between = (from: number, to: number): number => roundTo(told(to) - told(from), TOLD_PLACES);

/** Each beat of a strip as it is told to a reader, in order of time. Intervals run as in `measure`. */
export function toldBeats({ beats, quality, rhythms }: BeatsToTell): ToldBeat[] {
  const readable = quality.spans.filter((span) => span.readable);
  const spanOf = (time: number) => readable.findIndex(({ from, to }) => time >= from && time <= to);
  const isNamed = (time: number) =>
    rhythms.some(({ from, to, confidence }) => confidence !== null && time >= from && time <= to);
  return beats.map(({ time, kind, ...waves }, index) => {
    const before = beats[index - 1];
    const p = sure(waves.p);
    const qrs = sure(waves.qrs);
    const t = sure(waves.t);
    return {
      number: index + 1,
      time: told(time),
      kind: kind === 'sinus' && !isNamed(time) ? 'withheld' : kind,
      rr: !before
        ? 'first beat'
        : spanOf(before.time) === spanOf(time)
          ? between(before.time, time)
          : 'not readable between',
      p: p ? 'seen' : waves.p ? 'unsure' : 'not seen',
      pr: p && qrs && between(p.onset, qrs.onset),
      qrs: qrs && between(qrs.onset, qrs.end),
      qt: qrs && t && between(qrs.onset, t.end),
    };
  });
}

const sure = (wave: ToldWave | null): ToldWave | null =>
  wave && wave.confidence >= SURE_ENOUGH ? wave : null;
