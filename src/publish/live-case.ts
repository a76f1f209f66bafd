import type { ReadStrip } from '../facts/build-facts.js';
import type { LiveCase, LiveLead, LiveVitals } from '../live/contract.js';
import { writeCounts } from '../live/counts.js';
import type { PublicFacts } from '../privacy/public-facts.js';
import type { Channel } from '../signal/waveform.js';
import type { Language } from '../words/language.js';
import { shownUnit } from '../words/teaching/vitals.js';
import { ecgLabel } from './pack/strip-files.js';
import { drawnChannels, vitalsFigure } from './vitals-figure.js';

/** What the scripts of a teaching page need: the samples and what was found in them, under labels of the trade alone. */
export function liveCase(
  facts: PublicFacts,
  strips: readonly ReadStrip[],
  language: Language,
): LiveCase {
  const { tag, live } = language;
  return {
    language: tag,
    words: live,
    strips: strips.map(({ lead, analysis }, index) => ({
      figure: `strip-${index + 1}`,
      lead: liveLead(lead),
      begins: facts.strips[index]?.begins.value ?? null,
      analysis,
    })),
    vitals: liveVitals(facts, language),
    exercises: facts.exercises,
  };
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

/** mV. Finer than any monitor writes. Not a clinical number. */
const MICROVOLT = 0.001;

function liveLead({ label, samplingRate, samples }: Channel): LiveLead {
  return {
    label: ecgLabel(label) ?? 'ECG',
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
