import type { Wave } from '../../../src/signal/marked-beat.js';
import type { Channel } from '../../../src/signal/waveform.js';
import { findWaves, type Waves } from '../../../src/signal/waves/find-waves.js';
import { hertz, seconds } from '../../../src/units/brands.js';
import type { BeatPlan } from '../../synth/beat-plan.js';
import {
  makeNoise,
  NOISE_LEVELS,
  type NoiseKind,
  type NoiseLevel,
  withNoise,
} from '../../synth/noise.js';
import { randomFrom } from '../../synth/random.js';
import { type Lead, renderLead } from '../../synth/render.js';
import { type Span, type Truth, truthOf } from '../../synth/truth.js';

export interface Taken {
  readonly rate?: number;
  readonly level?: NoiseLevel | 'none';
  readonly kinds?: readonly NoiseKind[];
  readonly seed?: number;
  readonly leads?: readonly Lead[];
  /** Change of each lead after noise, for example upside down. */
  readonly change?: (samples: Float64Array) => Float64Array;
}

/** The plan as channels, with wander, mains and muscle noise of the level. */
export function channels(plan: BeatPlan, how: Taken = {}): Channel[] {
  const { rate = 500, level = 'mild', seed = 1, leads = ['II'], change = (x) => x } = how;
  const kinds = how.kinds ?? ['wander', 'mains', 'muscle'];
  return leads.map((label, k) => {
    const lead = renderLead(plan, rate, label);
    const noises =
      level === 'none'
        ? []
        : kinds.map((kind, i) =>
            makeNoise(kind, {
              length: lead.length,
              samplingRate: rate,
              amplitude: NOISE_LEVELS[kind][level],
              random: randomFrom(1000 * seed + 10 * k + i),
            }),
          );
    return {
      label,
      unit: 'mV',
      samplingRate: hertz(rate),
      samples: change(withNoise(lead, ...noises)),
    };
  });
}

export interface Marked {
  readonly truth: Truth;
  readonly waves: Waves;
}

/** The waves found from the true beat times. */
export function mark(plan: BeatPlan, how: Taken = {}): Marked {
  const truth = truthOf(plan);
  const beats = truth.beats.map(({ time }) => ({ time: seconds(time), lead: 0 }));
  return { truth, waves: findWaves(channels(plan, how), beats) };
}

/** Errors of edges in s, one list an edge. */
export type Errors = Record<'pOnset' | 'pEnd' | 'qrsOnset' | 'qrsEnd' | 'tEnd', number[]>;

/** A P found this near to the true one is it; in s. */
const near = 0.03;

export class Tally {
  found = 0;
  missed = 0;
  invented = 0;
  readonly errors: Errors = { pOnset: [], pEnd: [], qrsOnset: [], qrsEnd: [], tEnd: [] };

  add({ truth, waves }: Marked): this {
    truth.beats.forEach((beat, k) => {
      const { p, qrs, t } = waves.beats[k]!;
      if (isAt(p, beat.p)) this.found += 1;
      else if (beat.p) this.missed += 1;
      if (p && !isAt(p, beat.p)) this.invented += 1;
      if (p && beat.p && isAt(p, beat.p)) {
        this.errors.pOnset.push(p.onset - beat.p.onset);
        this.errors.pEnd.push(p.end - beat.p.end);
      }
      if (qrs) {
        this.errors.qrsOnset.push(qrs.onset - beat.qrs.onset);
        this.errors.qrsEnd.push(qrs.end - beat.qrs.end);
      }
      if (t && beat.t) this.errors.tEnd.push(t.end - beat.t.end);
    });
    return this;
  }

  get sensitivity(): number {
    return this.found / (this.found + this.missed);
  }

  get precision(): number {
    return this.found / (this.found + this.invented);
  }
}

export const isAt = (wave: Wave | null, span: Span | null): boolean =>
  wave !== null && span !== null && Math.abs(wave.peak - span.peak) < near;

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

export function deviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - middle) ** 2)));
}
