import { hertz, type Seconds, seconds } from '../units/brands.js';
import { beatsOn } from './beats/detect.js';
import { shapeFamilies } from './beats/families.js';
import { kindsOf } from './beats/kinds.js';
import { findBreaths } from './breath/find-breaths.js';
import { linkToBreath, withoutCount } from './breath/link.js';
import { normalVariant } from './breath/normal-variant.js';
import { withoutHum } from './filter/hum.js';
import type { BeatKind, BeatWaves, MarkedBeat, Wave } from './marked-beat.js';
import { measure } from './measures/measure.js';
import { findPulses } from './pulse/find-pulses.js';
import { readableLead } from './quality/readable-lead.js';
import { readableInAny, readableTime, type Span } from './quality/span.js';
import { type BeatRun, beatRuns } from './rate/beat-runs.js';
import { extremeIntervals, meanRate } from './rate/beat-to-beat.js';
import { asSpans, countedStretches } from './rate/counted.js';
import { longEnough } from './rate/long-enough.js';
import { shortWindow } from './rate/short-window.js';
import { sinusRuns, variability } from './rate/variability.js';
import { type Finding, NORMAL, type RulingName, type WithinName } from './rhythm/rhythm.js';
import type { RhythmSpan } from './rhythm/ruling.js';
import { rhythmSpans } from './rhythm/spans.js';
import type {
  AnalysedBeat,
  FoundRhythm,
  RhythmEvent,
  StripAnalysis,
  StripContext,
  Withheld,
} from './strip-analysis.js';
import type { Channel } from './waveform.js';
import { findWaves } from './waves/find-waves.js';

/**
 * Reads a strip: where it can be read, its beats with their waves, their rate, what is measured on them, and whether
 * they go with the breath. `leads` are ECG leads in mV that begin together, the one to place R peaks on first.
 */
export function analyseStrip(leads: readonly Channel[], context: StripContext): StripAnalysis {
  const duration = seconds(
    leads.reduce((most, lead) => Math.max(most, lead.samples.length / lead.samplingRate), 0),
  );
  const { readable, spans, found } = searched(leads);
  const { beats, loneP } = findWaves(readable, found);
  const { patient } = context;
  const shapes = shapeFamilies(readable, beats);
  const marked = kindsOf(beats, shapes, loneP, patient);
  const link = linkToBreath(
    marked,
    findBreaths({
      ...context.breath,
      ...(readable[0] && { ecg: { lead: readable[0], beats } }),
    }),
    spans.filter((span) => span.readable),
  );
  const ruled = rhythmSpans({
    leads: readable,
    readable: spans,
    beats,
    shapes,
    marked,
    loneP,
    patient,
    breath: link.verdict,
    pulses: findPulses(context.pulse ?? {}),
  });
  const rhythms = joined(ruled.map(foundRhythm));
  const { because, ...rate } = rates(beats, spans, rhythms, duration);
  const breath = rate.rate === null ? withoutCount(link, beats) : link;
  const kinds = kindsByTime(ruled);
  const told = withKinds(beats, kinds);
  const varying = variability(sinusRuns(told, rhythms.filter(isNormal)));
  return {
    samplingRate: leads[0]?.samplingRate ?? hertz(0),
    duration,
    quality: { readable: duration > 0 ? readableTime(spans) / duration : 0, spans },
    beats: told,
    loneP: loneP.filter((wave) => ofHeight(wave) !== null),
    ...rate,
    variability: varying,
    measures: measure(ofOneKind(marked), readable, patient),
    breath,
    variant: breath.verdict === 'linked' ? normalVariant(breath, beats, patient) : null,
    rhythms,
    because: {
      ...because,
      variability: varying === null ? 'too few sinus intervals' : null,
    },
  };
}

/** What is read and found first; what was worked out for it alone is let go here. */
function searched(leads: readonly Channel[]) {
  const read = leads.map(readableLead);
  return {
    /** NaN where a lead cannot be read. */
    readable: read.map(({ channel }) => withoutHum(channel)),
    spans: readableInAny(read.map(({ spans }) => spans)),
    found: beatsOn(read),
  };
}

const timeOf = ({ time }: BeatWaves): Seconds => time;

/** What the rhythms made of each beat, by its time. */
function kindsByTime(spans: readonly RhythmSpan[]): ReadonlyMap<number, BeatKind> {
  const kinds = new Map<number, BeatKind>();
  for (const { beats } of spans) for (const { time, kind } of beats) kinds.set(time, kind);
  return kinds;
}

function withKinds(
  beats: readonly BeatWaves[],
  kinds: ReadonlyMap<number, BeatKind>,
): AnalysedBeat[] {
  const told: AnalysedBeat[] = [];
  for (const beat of beats) told.push(toldBeat(beat, kinds.get(beat.time)));
  return told;
}

const toldBeat = (
  { time, p, qrs, t }: BeatWaves,
  kind: BeatKind = 'unclassified',
): AnalysedBeat => ({ time, p: ofHeight(p), qrs: ofHeight(qrs), t: ofHeight(t), kind });

/** A wave that another lead shows where the one whose heights are told cannot be read has no height to tell: it is hidden there. */
const ofHeight = (wave: Wave | null): Wave | null =>
  wave !== null && Number.isFinite(wave.height) ? wave : null;

/** The sinus beats where there are any, else all: a median over beats of several kinds would describe none of them. */
function ofOneKind(beats: readonly MarkedBeat[]): readonly MarkedBeat[] {
  const sinus = beats.filter(isSinus);
  return sinus.length > 0 ? sinus : beats;
}

const isSinus = ({ kind }: MarkedBeat): boolean => kind === 'sinus';

const isNormal = ({ name }: FoundRhythm): boolean => NORMAL.some((each) => each === name);

function foundRhythm({ from, to, ruling, within }: RhythmSpan): FoundRhythm {
  const stretch = { from, to };
  if (ruling.kind !== 'named') {
    return {
      ...stretch,
      name: ruling.kind,
      confidence: null,
      possible: ruling.kind === 'cannot be told' ? ruling.possible : [],
      because: ruling.because,
      range: null,
      within: within.map(event),
    };
  }
  const { name, confidence, because, range } = ruling.finding;
  return {
    ...stretch,
    // Only a ruling rhythm is named as what rules a stretch.
    name: name as RulingName,
    confidence,
    possible: [],
    because,
    range,
    within: within.map(event),
  };
}

/** Neighbouring stretches that bear one name, told as one; it is as sure as the less sure of them. */
function joined(found: readonly FoundRhythm[]): FoundRhythm[] {
  const out: FoundRhythm[] = [];
  for (const next of found) {
    const last = out.at(-1);
    if (!last || last.confidence === null || last.name !== next.name) {
      out.push(next);
      continue;
    }
    const less = (next.confidence ?? 0) < last.confidence ? next : last;
    out[out.length - 1] = {
      ...less,
      from: last.from,
      to: next.to,
      within: [...last.within, ...next.within],
    };
  }
  return out;
}

const event = ({ name, from, to, confidence, because, patterns, beats }: Finding): RhythmEvent => ({
  name: name as WithinName,
  from,
  to,
  confidence,
  because,
  patterns,
  beats,
});

function rates(
  beats: readonly BeatWaves[],
  spans: readonly Span[],
  rhythms: readonly FoundRhythm[],
  duration: Seconds,
): Pick<StripAnalysis, 'rate'> & {
  readonly because: Omit<StripAnalysis['because'], 'variability'>;
} {
  const times = beats.map(timeOf);
  const runs = beatRuns(times, asSpans(countedStretches(rhythms, beats, spans)));
  const mean = meanRate(runs);
  const extremes = extremeIntervals(runs);
  if (mean === null || extremes === null) {
    const why = whyNoRate(beatRuns(times, spans), duration);
    return {
      rate: null,
      because: { rate: why, shortWindow: why, longEnough: why, steadyFrom: why },
    };
  }
  const spread = shortWindow(runs);
  const steady = longEnough(runs);
  return {
    rate: {
      mean,
      ...extremes,
      shortWindow: spread,
      longEnough: steady.window,
      steadyFrom: steady.steadyFrom,
    },
    because: {
      rate: null,
      shortWindow: spread === null ? 'strip too short' : null,
      longEnough: steady.because,
      steadyFrom: steady.steadyFrom === null ? (steady.because ?? 'strip too short') : null,
    },
  };
}

/** @param runs of all that was found, whether it is known to be beats or not */
function whyNoRate(runs: readonly BeatRun[], duration: Seconds): Withheld {
  if (duration === 0) return 'no samples';
  if (runs.length === 0) return 'nothing readable';
  return meanRate(runs) === null ? 'fewer than two beats' : 'beats in doubt';
}
