import { numberedPaper } from '../draw/vitals/beats.js';
import type { ReadStrip } from '../facts/strip.js';
import type {
  LiveAnalysis,
  LiveCase,
  LiveLead,
  LiveVitals,
  NumberedPiece,
} from '../live/contract.js';
import { writeCounts } from '../live/counts.js';
import type { PublicFacts } from '../privacy/public-facts.js';
import { ecgText, leadName } from '../signal/lead-name.js';
import type { Wave } from '../signal/marked-beat.js';
import { toMillivolt } from '../signal/millivolt.js';
import { reasons } from '../signal/quality/span.js';
import type { StripAnalysis } from '../signal/strip-analysis.js';
import { TOLD_KINDS, TOLD_PLACES } from '../signal/told-beats.js';
import type { Channel, Waveform } from '../signal/waveform.js';
import { allRounded } from '../units/round.js';
import type { Language } from '../words/language.js';
import { shownUnit } from '../words/teaching/vitals.js';
import { FIGURE_WIDTH } from './figures.js';
import { drawnChannels, vitalsFigure } from './vitals-figure.js';

/** What the scripts of a teaching page need: the samples and what was found in them, under labels of the trade alone. */
export function liveCase(
  facts: PublicFacts,
  strips: readonly ReadStrip[],
  language: Language,
): LiveCase {
  return {
    language: language.tag,
    words: { ...language.live, ...sharedWith(language) },
    rhythms: rhythmNames(strips, language),
    strips: strips.map(({ waveform, lead, analysis }, index) => ({
      figure: `strip-${index + 1}`,
      lead: liveLead(lead, ecgText(lead.label)),
      others: otherLeads(waveform, lead),
      begins: facts.strips[index]?.begins.value ?? null,
      analysis: liveAnalysis(analysis),
    })),
    vitals: liveVitals(facts, language),
    exercises: facts.exercises,
    numbered: numberedPiece(facts),
  };
}

function numberedPiece({ exercises }: PublicFacts): NumberedPiece | null {
  const asked = exercises.find((one) => one.name === 'find-the-p');
  if (!asked) return null;
  const { left, paperSpeed } = numberedPaper(asked.to - asked.from, FIGURE_WIDTH);
  return { left, second: paperSpeed };
}

function liveVitals(facts: PublicFacts, language: Language): LiveVitals {
  const { trade } = language;
  return {
    chart: vitalsFigure(facts, language),
    series: drawnChannels(facts).map(({ channel, unit }) => ({
      name: trade.text(`channels.${channel}.learner`),
      unit: shownUnit(unit),
    })),
    events: facts.anesthesia.events.map(({ what, note }) =>
      [trade.text(`events.${what}.learner`), ...(note === null ? [] : [note])].join(': '),
    ),
    low: facts.story.low,
  };
}

/** Words that the page itself says too. */
function sharedWith({ learner }: Language): Record<string, string> {
  return Object.fromEntries([
    ...reasons.map((why) => [`strip.why.${why}`, learner.text(`strip.reasons.${why}`)]),
    ...TOLD_KINDS.map((kind) => [`strip.kind.${kind}`, learner.text(`strip.kinds.${kind}`)]),
  ]);
}

function rhythmNames(strips: readonly ReadStrip[], { rhythms }: Language): Record<string, string> {
  const named = strips.flatMap(({ analysis }) =>
    analysis.rhythms.flatMap(({ name, confidence, within }) => [
      ...(confidence === null ? [] : [name]),
      ...within.map((event) => event.name),
    ]),
  );
  return Object.fromEntries(named.map((name) => [name, rhythms.text(`${name}.learner.name`)]));
}

/** Times to 0.1 ms: as exact as they are told, and a third of the text. */
function liveAnalysis(analysis: StripAnalysis): LiveAnalysis {
  const wave = (one: Wave | null) =>
    one && { onset: one.onset, peak: one.peak, end: one.end, confidence: one.confidence };
  return allRounded(
    {
      ...analysis,
      beats: analysis.beats.map(({ time, kind, p, qrs, t }) => ({
        time,
        kind,
        p: wave(p),
        qrs: wave(qrs),
        t: wave(t),
      })),
    },
    TOLD_PLACES,
  );
}

/** The leads that the anonymized record publishes beside the one that was read. */
function otherLeads({ channels }: Waveform, read: Channel): LiveLead[] {
  return channels.flatMap((channel) => {
    if (channel.label === read.label || leadName(channel.label) === null) return [];
    const millivolt = toMillivolt(channel, '');
    return millivolt.ok ? [liveLead(millivolt.value, ecgText(channel.label))] : [];
  });
}

/** mV. Finer than any monitor writes. Not a clinical number. */
const MICROVOLT = 0.001;

function liveLead({ samplingRate, samples }: Channel, label: string): LiveLead {
  return {
    label,
    samplingRate,
    step: MICROVOLT,
    counts: writeCounts(Array.from(samples, (sample) => Math.round(sample / MICROVOLT))),
    missing: missingIn(samples),
  };
}

function missingIn(samples: Float64Array): [from: number, to: number][] {
  const stretches: [from: number, to: number][] = [];
  samples.forEach((sample, index) => {
    if (Number.isFinite(sample)) return;
    const last = stretches.at(-1);
    if (last?.[1] === index) last[1] = index + 1;
    else stretches.push([index, index + 1]);
  });
  return stretches;
}
