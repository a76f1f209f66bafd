import { seconds } from '../../units/brands.js';
import { withoutJumps } from '../filter/jumps.js';
import { type QrsViews, qrsViews, searchRate } from '../filter/qrs-steepness.js';
import { resample } from '../filter/resample.js';
import { gaps, type Run } from '../filter/runs.js';
import type { Channel } from '../waveform.js';
import { bursts } from './bursts.js';
import { clipping } from './clipping.js';
import { flatLine } from './flat-line.js';
import { idleLine } from './idle-line.js';
import { bridged, missing } from './missing.js';
import { noise } from './noise.js';
import { shortBursts } from './short-bursts.js';
import { type Blemish, reasons, type Span, spansFromMarks } from './span.js';

/** Less than this between unreadable stretches shows no beat together with its surroundings; in s. */
const shortestIsland = 1.5;

/** One lead with what of it can be read, and what was worked out on the way that the search for beats needs as well. */
export interface ReadableLead extends QrsViews {
  /** In mV; NaN in each unreadable span, each harmless gap bridged, each jump laid together. */
  readonly channel: Channel;
  /**
   * Spans that can and cannot be read, from 0 to the end without hole or overlap. Beats, rates and
   * intervals must not rest on an unreadable span.
   */
  readonly spans: readonly Span[];
  /** The channel at `searchRate`, in mV. */
  readonly grid: Float64Array;
}

/** Looks for what cannot be read. The lead is in mV. */
export function readableLead(lead: Channel): ReadableLead {
  const { samples, samplingRate } = lead;
  const marks = new Uint8Array(samples.length);
  const mark = (blemishes: readonly Blemish[], scale = 1) => {
    for (const blemish of blemishes) {
      const to = Math.min(samples.length, Math.ceil(blemish.to * scale));
      const code = 1 + reasons.indexOf(blemish.why);
      for (let i = Math.floor(blemish.from * scale); i < to; i++) marks[i] ||= code;
    }
  };
  const holes = gaps(samples);
  mark(missing(holes, samples.length, samplingRate));
  mark(clipping(samples, samplingRate));
  mark(flatLine(samples, samplingRate));
  mark(bursts(samples, samplingRate));
  const duration = samples.length / samplingRate;
  const calm = withoutJumps(lead);
  const first = onGrid(calm, spansFromMarks(marks, samplingRate, duration), holes);
  const poor = [...idleLine(first.grid, first.steepness), ...noise(first.grid, first.steepness)];
  mark(poor, samplingRate / searchRate);
  // What surrounds one is judged together with it: noise that goes on is longer than its loudest part.
  const short = shortBursts(samples, samplingRate);
  mark(short);
  const isAsRead = poor.length + short.length === 0;
  const spans = isAsRead ? first.spans : spansFromMarks(marks, samplingRate, duration);
  const whole = withoutIslands(spans);
  // Most leads hold neither of them nor islands, and have been read already.
  return isAsRead && whole.length === spans.length ? first : onGrid(calm, whole, holes);
}

/** The spans of `readableLead`. */
export const readableSpans = (lead: Channel): readonly Span[] => readableLead(lead).spans;

/** The lead's samples with each unreadable span as NaN and each harmless gap bridged. */
export function readableSamples(
  lead: Channel,
  spans: readonly Span[],
  holes: readonly Run[] = gaps(lead.samples),
): Float64Array {
  const whole = bridged(lead.samples, holes, lead.samplingRate);
  const poor = spans.filter((span) => !span.readable);
  if (poor.length === 0) return whole;
  const out = whole === lead.samples ? whole.slice() : whole;
  for (const { from, to } of poor) {
    out.fill(Number.NaN, Math.round(from * lead.samplingRate), Math.round(to * lead.samplingRate));
  }
  return out;
}

function onGrid(lead: Channel, spans: readonly Span[], holes: readonly Run[]): ReadableLead {
  const channel = { ...lead, samples: readableSamples(lead, spans, holes) };
  const grid = resample(channel.samples, lead.samplingRate, searchRate);
  return { channel, spans, grid, ...qrsViews(grid) };
}

function withoutIslands(spans: readonly Span[]): Span[] {
  const out: Span[] = [];
  for (const span of spans) {
    const before = out.at(-1);
    const isIsland = span.readable && spans.length > 1 && span.to - span.from < shortestIsland;
    const why = isIsland ? before?.why || spans[1]!.why : span.why;
    if (before && before.why === why) out[out.length - 1] = { ...before, to: span.to };
    else out.push({ from: seconds(span.from), to: span.to, readable: why === '', why });
  }
  return out;
}
