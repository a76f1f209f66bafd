import type { LiveLead, LiveStrip } from '../contract.js';
import type { Point } from './calipers.js';
import { extremesIn, leadSamples, millivoltAt, type Pyramid, pyramidOf } from './pyramid.js';
import { paperFor, type Sheet } from './view.js';

/** The leads of a strip, each read from its text when it is first looked at, and which of them is shown. */
export class Leads {
  readonly all: readonly LiveLead[];
  private readonly read = new Map<LiveLead, Pyramid>();
  shown: LiveLead;

  constructor(private readonly strip: LiveStrip) {
    this.all = [strip.lead, ...strip.others];
    this.shown = strip.lead;
  }

  get pyramid(): Pyramid {
    const read = this.read.get(this.shown);
    if (read) return read;
    const made = pyramidOf(leadSamples(this.shown), this.shown.samplingRate);
    this.read.set(this.shown, made);
    return made;
  }

  /** Paper high enough for what can be read; where nothing can, for all of it. */
  get sheet(): Sheet {
    const { duration, quality } = this.strip.analysis;
    const stretches = quality.spans.filter(({ readable }) => readable);
    const extremes = (stretches.length > 0 ? stretches : [{ from: 0, to: duration }])
      .map(({ from, to }) => extremesIn(this.pyramid, from, to))
      .filter((one) => one !== null);
    if (extremes.length === 0) return { duration, ...paperFor(null) };
    const low = Math.min(...extremes.map(([least]) => least));
    const high = Math.max(...extremes.map(([, most]) => most));
    return { duration, ...paperFor([low, high]) };
  }

  pointAt(second: number): Point {
    return { second, millivolt: millivoltAt(this.pyramid, second) };
  }

  /** The moment of the sample that is closest to a moment, s. */
  onSample(second: number): number {
    const { samplingRate } = this.shown;
    const last = this.pyramid.samples.length - 1;
    return Math.min(last, Math.max(0, Math.round(second * samplingRate))) / samplingRate;
  }
}
