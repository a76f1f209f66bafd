import { Temporal } from 'temporal-polyfill';
import type { CaseText } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import type { StripAnalysis, StripRate } from '../signal/strip-analysis.js';
import type { Waveform } from '../signal/waveform.js';
import { roundTo } from '../units/round.js';
import type {
  ChannelFacts,
  ShownRate,
  ShownRelation,
  StripFacts,
  WhyNoBegin,
  WhyNotShown,
} from './case-facts.js';
import { computed, type Fact, notKnown, recorded, type Stated } from './fact.js';
import type { Timeline } from './timeline.js';

/**
 * A displayed rate this many minutes before or after the strip still speaks of it; monitors write a line every few minutes.
 * Source: common practice, half of the usual five minutes between two lines.
 */
const NEAR_MINUTES = 2.5;

/**
 * Displayed and counted rates agree within this share. Source: the accuracy that IEC 60601-2-27 asks of a heart-rate
 * meter, plus or minus 10 % or 5 beats/min (from memory, unverified).
 */
const AGREES_WITHIN = 0.1;

/** What one ECG strip says, with its place on the clock of the case; `index` counts the strips of the record from 0. */
export function stripFacts(
  { value, where }: Located<CaseText>,
  index: number,
  waveform: Waveform,
  analysis: StripAnalysis,
  vitals: readonly ChannelFacts[],
  time: Timeline,
): StripFacts {
  const strip = value.monitor.strips[index] as CaseText['monitor']['strips'][number];
  const begins = startOf(strip, waveform, time, where('monitor', 'strips', index));
  return {
    file: strip.file,
    lead: strip.lead,
    begins,
    analysis,
    shown: shownRate(begins, analysis, vitals, strip.file),
  };
}

/** The record's own time overrides the file's, whose clock may be wrong. */
export function startOf(
  strip: { readonly file: string; readonly begin?: string | undefined },
  waveform: Waveform,
  time: Timeline,
  where: string,
): Stated<number, WhyNoBegin> {
  if (strip.begin) return recorded(time.minuteOf(time.local(strip.begin)), where);
  if (waveform.startsAt) {
    const at = Temporal.PlainDateTime.from(waveform.startsAt);
    const minute = time.minuteOf(at);
    return minute >= 0 && minute <= time.minutes
      ? recorded(minute, `${strip.file} header`)
      : notKnown(
          "The file's own clock places the strip outside the anesthesia, and the record does not say when it began.",
        );
  }
  return notKnown('Neither the file nor the record says when the strip began.');
}

function shownRate(
  begins: Stated<number, WhyNoBegin>,
  analysis: StripAnalysis,
  vitals: readonly ChannelFacts[],
  file: string,
): Stated<ShownRate, WhyNotShown> {
  const displayed = vitals.find(({ channel }) => channel === 'heart rate');
  if (begins.value === null) return notKnown(begins.why);
  if (!analysis.rate) return notKnown('The beats on the strip could not be counted.');
  if (!displayed || displayed.patient.length === 0) {
    return notKnown('The vitals hold no displayed heart rate of the patient.');
  }
  const from = begins.value;
  const to = from + analysis.duration / 60;
  const readings = displayed.patient.filter(
    ({ minute }) => minute >= from - NEAR_MINUTES && minute <= to + NEAR_MINUTES,
  );
  if (readings.length === 0) {
    return notKnown('No heart rate was displayed within 2.5 minutes of the strip.');
  }
  const shown = readings.reduce((sum, { value }) => sum + value, 0) / readings.length;
  const ratio = shown / analysis.rate.mean;
  return computed(
    {
      readings,
      ratio: roundTo(ratio, 3),
      relation: relationOf(shown, analysis.rate),
      tToR: analysis.measures.tToR.value,
    },
    'mean of the displayed rates over the mean rate counted on the strip',
    `${file} ${analysis.beats.length} beats`,
    ...readings.map((reading) => `vitals line ${reading.line} heart rate`),
  ) satisfies Fact<ShownRate>;
}

function relationOf(shown: number, rate: StripRate): ShownRelation {
  const near = (target: number) => Math.abs(shown / target - 1) <= AGREES_WITHIN;
  if (near(rate.mean)) return 'agrees';
  if (near(2 * rate.mean)) return 'about double';
  if (near(rate.mean / 2)) return 'about half';
  const window = rate.shortWindow;
  return window && shown >= window.low && shown <= window.high ? 'short window' : 'differs';
}
