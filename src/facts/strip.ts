import { Temporal } from 'temporal-polyfill';
import type { CaseText } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import type { StripAnalysis } from '../signal/strip-analysis.js';
import type { Channel, Waveform } from '../signal/waveform.js';
import { roundTo } from '../units/round.js';
import type { Reading } from '../vitals/channel.js';
import { agrees, agreesWithin } from './agreeing-rates.js';
import type {
  ChannelFacts,
  ShownRate,
  ShownRelation,
  ShownStretch,
  StripFacts,
  WhyNoBegin,
  WhyNotShown,
} from './case-facts.js';
import { BESIDE, type CountBeside, countBeside } from './count-beside.js';
import { computed, type Fact, notKnown, recorded, type Stated } from './fact.js';
import type { Timeline } from './timeline.js';

/**
 * Where none was displayed while the strip ran, a rate this many minutes before or after the strip still speaks of it; monitors write a line every few minutes.
 * Source: common practice, half of the usual five minutes between two lines.
 */
const NEAR_MINUTES = 2.5;

/** A waveform file that was read, and what its strip showed. Its channels bear the names of the trade (`signal/channel-names`). */
export interface ReadStrip {
  readonly waveform: Waveform;
  /** The lead that was read, in mV. */
  readonly lead: Channel;
  readonly analysis: StripAnalysis;
}

/** What one ECG strip says, with its place on the clock of the case; `index` counts the strips of the record from 0. */
export function stripFacts(
  { value, where }: Located<CaseText>,
  index: number,
  { waveform, lead, analysis }: ReadStrip,
  vitals: readonly ChannelFacts[],
  time: Timeline,
): StripFacts {
  const strip = value.monitor.strips[index] as CaseText['monitor']['strips'][number];
  const begins = startOf(strip, waveform, time, where('monitor', 'strips', index));
  return {
    file: strip.file,
    lead: lead.label,
    written: strip.lead,
    begins,
    analysis,
    shown: shownRate(begins, analysis, vitals, strip.file),
  };
}

/** How the begin of a strip came about whose file tells the time of day without a date. */
export const DAY_TAKEN = 'the time of day that the file tells, on the day of the anesthesia';

/** A time of day on each day of the anesthesia, which lasts less than a day: on one of them at most the patient was under it. */
const onDaysOf = ({ begin, minutes }: Timeline, timeOfDay: string): Temporal.PlainDateTime[] =>
  [begin, begin.add({ minutes: Math.ceil(minutes) })].map((moment) =>
    moment.toPlainDate().toPlainDateTime(Temporal.PlainTime.from(timeOfDay)),
  );

/** The record's own time overrides the file's, whose clock may be wrong. */
export function startOf(
  strip: { readonly file: string; readonly begin?: string | undefined },
  waveform: Waveform,
  time: Timeline,
  where: string,
): Stated<number, WhyNoBegin> {
  if (strip.begin) return recorded(time.minuteOf(time.local(strip.begin)), where);
  const { startsAt } = waveform;
  if (startsAt === null) {
    return notKnown('Neither the file nor the record says when the strip began.');
  }
  const isDated = startsAt.includes('T');
  const minute = (isDated ? [Temporal.PlainDateTime.from(startsAt)] : onDaysOf(time, startsAt))
    .map((at) => time.minuteOf(at))
    .find((one) => one >= 0 && one <= time.minutes);
  if (minute === undefined) {
    return notKnown(
      "The file's own clock places the strip outside the anesthesia, and the record does not say when it began.",
    );
  }
  return isDated
    ? recorded(minute, `${strip.file} header`)
    : computed(minute, DAY_TAKEN, `${strip.file} header`, 'anesthesia');
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
  const within = displayed.patient.filter(({ minute }) => minute >= from && minute <= to);
  const during = within.length > 0;
  const readings = during ? within : nearest(displayed.patient, from, to);
  if (readings.length === 0) {
    return notKnown('No heart rate was displayed within 2.5 minutes of the strip.');
  }
  const compared = readings.flatMap((reading) => {
    const count = countBeside(analysis, 60 * (reading.minute - from));
    return count ? [{ reading, single: stretchOf(reading, count, during) }] : [];
  });
  if (compared.length === 0) {
    return notKnown(
      'The beats could not be counted for most of the minute around the displayed rates.',
    );
  }
  const single = compared.map((one) => one.single);
  const values = compared.map(({ reading }) => reading.value);
  const relations = new Set(single.map(({ relation }) => relation));
  return computed(
    {
      during,
      shown: during ? single.reduce<ShownStretch[]>(joined, []) : single,
      verdict: relations.size === 1 ? (single[0] as ShownStretch).relation : 'mixed',
      isWhole: analysis.duration <= BESIDE,
      alike: agrees(Math.max(...values), Math.min(...values)),
      tToR: analysis.measures.tToR.value,
    },
    'each displayed rate over the mean rate counted on the strip in the minute around it',
    `${file} ${analysis.beats.length} beats`,
    ...compared.map(({ reading }) => `vitals line ${reading.line} heart rate`),
  ) satisfies Fact<ShownRate>;
}

/** The last reading before a stretch and the first after it, as far as each is near enough to speak of it. */
function nearest(readings: readonly Reading[], from: number, to: number): Reading[] {
  const before = readings.filter(({ minute }) => minute < from && minute >= from - NEAR_MINUTES);
  const after = readings.filter(({ minute }) => minute > to && minute <= to + NEAR_MINUTES);
  return [...before.slice(-1), ...after.slice(0, 1)];
}

function stretchOf({ minute, value }: Reading, count: CountBeside, during: boolean): ShownStretch {
  const ratio = roundTo(value / count.mean, 3);
  return {
    from: minute,
    to: minute,
    lowest: value,
    highest: value,
    ratios: [ratio, ratio],
    relation: relationOf(value, count, during),
  };
}

/** Puts a reading to the one before it where both say the same, and lie on the same side of the count. */
function joined(before: readonly ShownStretch[], next: ShownStretch): ShownStretch[] {
  const last = before.at(-1);
  const isSame =
    last?.relation === next.relation &&
    (next.relation === 'agrees' || last.ratios[0] > 1 === next.ratios[0] > 1);
  if (!isSame) return [...before, next];
  return [
    ...before.slice(0, -1),
    {
      ...last,
      to: next.to,
      lowest: Math.min(last.lowest, next.lowest),
      highest: Math.max(last.highest, next.highest),
      ratios: [Math.min(last.ratios[0], next.ratios[0]), Math.max(last.ratios[1], next.ratios[1])],
    },
  ];
}

/**
 * What a displayed rate says of a count. One count speaks for a minute only where the heart kept its pace and beat
 * throughout. What a few of the strip's beats could have shown explains only a rate that was displayed while they ran.
 */
function relationOf(shown: number, count: CountBeside, during: boolean): ShownRelation {
  const window = count.shortWindow;
  const slowest = Math.min(count.pace.slowest, window?.low ?? Number.POSITIVE_INFINITY);
  const fastest = Math.max(count.pace.fastest, window?.high ?? 0);
  const isMet =
    shown >= slowest - agreesWithin(slowest) && shown <= fastest + agreesWithin(fastest);
  if (count.isWithoutBeats || (isMet && !keepsPace(count))) return 'unsteady';
  if (agrees(shown, count.mean)) return 'agrees';
  if (agrees(shown, 2 * count.mean)) return 'about double';
  if (agrees(shown, count.mean / 2)) return 'about half';
  return during && window && shown >= window.low && shown <= window.high
    ? 'short window'
    : 'differs';
}

/** Rates over some ten seconds stay this near to the mean of their minute where the heart keeps its pace. Own choice, not a clinical number: the swing that breath and irregular beats leave in them is less. */
const KEEPS_PACE = 0.25;

const keepsPace = ({ mean, pace: { slowest, fastest } }: CountBeside): boolean =>
  fastest <= (1 + KEEPS_PACE) * mean && mean <= (1 + KEEPS_PACE) * slowest;
