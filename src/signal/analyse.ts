import { hertz, type Seconds, seconds } from '../units/brands.js';
import { detectBeats } from './beats/detect.js';
import { findBreaths } from './breath/find-breaths.js';
import { linkToBreath } from './breath/link.js';
import { measure } from './measures/measure.js';
import { readableSamples, readableSpans } from './quality/readable-spans.js';
import { readableInAny, readableTime } from './quality/span.js';
import { type BeatRun, beatRuns } from './rate/beat-runs.js';
import { extremeIntervals, meanRate } from './rate/beat-to-beat.js';
import { longEnough } from './rate/long-enough.js';
import { shortWindow } from './rate/short-window.js';
import type { StripAnalysis, StripContext, Withheld } from './strip-analysis.js';
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
  const spansOfLeads = leads.map(readableSpans);
  const spans = readableInAny(spansOfLeads);
  const readable = leads.map((lead, index) => ({
    ...lead,
    samples: readableSamples(lead, spansOfLeads[index]!),
  }));
  const found = detectBeats(leads, spansOfLeads);
  const { beats } = findWaves(readable, found);
  return {
    samplingRate: leads[0]?.samplingRate ?? hertz(0),
    duration,
    quality: { readable: duration > 0 ? readableTime(spans) / duration : 0, spans },
    beats: beats.map((beat) => ({ ...beat, kind: null })),
    ...rates(
      beatRuns(
        beats.map((beat) => beat.time),
        spans,
      ),
      duration,
    ),
    measures: measure(beats, readable, context.patient),
    breath: linkToBreath(
      beats,
      findBreaths({
        ...context.breath,
        ...(readable[0] && { ecg: { lead: readable[0], beats } }),
      }),
      spans.filter((span) => span.readable),
    ),
    rhythms: null,
  };
}

function rates(
  runs: readonly BeatRun[],
  duration: Seconds,
): Pick<StripAnalysis, 'rate' | 'because'> {
  const mean = meanRate(runs);
  const extremes = extremeIntervals(runs);
  if (mean === null || extremes === null) {
    const why = whyNoRate(runs, duration);
    return { rate: null, because: { rate: why, shortWindow: why, longEnough: why } };
  }
  const spread = shortWindow(runs);
  const steady = longEnough(runs);
  return {
    rate: { mean, ...extremes, shortWindow: spread, longEnough: steady.window },
    because: {
      rate: null,
      shortWindow: spread === null ? 'strip too short' : null,
      longEnough: steady.because,
    },
  };
}

function whyNoRate(runs: readonly BeatRun[], duration: Seconds): Withheld {
  if (duration === 0) return 'no samples';
  return runs.length === 0 ? 'nothing readable' : 'fewer than two beats';
}
