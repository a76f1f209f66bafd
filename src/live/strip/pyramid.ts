import { readCounts } from '../counts.js';

/** A lead as it is drawn: samples in mV, NaN where the file holds none, and their extremes by blocks of 2, 4, 8 … */
export interface Pyramid {
  /** Hz. */
  readonly samplingRate: number;
  readonly samples: Float32Array;
  /** `levels[k]` holds blocks of 2^(k+1) samples. */
  readonly levels: readonly Level[];
}

interface Level {
  readonly size: number;
  /** NaN where no sample of the block is valid. */
  readonly low: Float32Array;
  readonly high: Float32Array;
}

interface WrittenLead {
  readonly samplingRate: number;
  readonly step: number;
  readonly counts: string;
  readonly missing: readonly (readonly [from: number, to: number])[];
}

export function leadSamples({ counts, step, missing }: WrittenLead): Float32Array {
  const samples = Float32Array.from(readCounts(counts), (count) => count * step);
  for (const [from, to] of missing) samples.fill(Number.NaN, from, to);
  return samples;
}

export function pyramidOf(samples: Float32Array, samplingRate: number): Pyramid {
  const levels: Level[] = [];
  let finer: Pick<Level, 'low' | 'high'> = { low: samples, high: samples };
  for (let size = 2; finer.low.length > 1; size *= 2) {
    const blocks = Math.ceil(finer.low.length / 2);
    const low = new Float32Array(blocks);
    const high = new Float32Array(blocks);
    for (let block = 0; block < blocks; block++) {
      low[block] = lesser(finer.low[2 * block], finer.low[2 * block + 1]);
      high[block] = -lesser(minus(finer.high[2 * block]), minus(finer.high[2 * block + 1]));
    }
    finer = { low, high };
    levels.push({ size, low, high });
  }
  return { samplingRate, samples, levels };
}

const minus = (value: number | undefined): number => -(value ?? Number.NaN);

/** The lesser of two, or the one that is a number. */
function lesser(a: number | undefined, b: number | undefined): number {
  if (b === undefined || Number.isNaN(b)) return a ?? Number.NaN;
  return a === undefined || Number.isNaN(a) || b < a ? b : a;
}

/** Points of a line: s and mV by turns in one array; NaN for mV breaks the line. */
export type Points = Float64Array;

/**
 * The line from `from` to `to` s and one step beyond on either side, on `pixels` columns: every sample where they are few, else the
 * lowest and the highest of each block, so that no deflection is lost; at most about four points a column.
 */
export function lineOf(pyramid: Pyramid, from: number, to: number, pixels: number): Points {
  const { samples, samplingRate, levels } = pyramid;
  const perPixel = ((to - from) * samplingRate) / pixels;
  const level = levels.findLast(({ size }) => size <= perPixel);
  return level ? blocks(level, samplingRate, from, to) : each(samples, samplingRate, from, to);
}

function each(samples: Float32Array, rate: number, from: number, to: number): Points {
  const first = Math.max(0, Math.floor(from * rate));
  const last = Math.min(samples.length - 1, Math.ceil(to * rate));
  const points = new Float64Array(2 * Math.max(0, last - first + 1));
  for (let index = first; index <= last; index++) {
    points[2 * (index - first)] = index / rate;
    points[2 * (index - first) + 1] = samples[index] as number;
  }
  return points;
}

function blocks({ size, low, high }: Level, rate: number, from: number, to: number): Points {
  const first = Math.max(0, Math.floor((from * rate) / size));
  const last = Math.min(low.length - 1, Math.ceil((to * rate) / size));
  const points = new Float64Array(4 * Math.max(0, last - first + 1));
  let before = 0;
  for (let block = first; block <= last; block++) {
    const at = (block * size + (size - 1) / 2) / rate;
    const [least, most] = [low[block] as number, high[block] as number];
    // The nearer end first, so that the line does not run the height of a block twice.
    const upward = Math.abs(least - before) <= Math.abs(most - before);
    const place = 4 * (block - first);
    points[place] = at;
    points[place + 1] = upward ? least : most;
    points[place + 2] = at;
    points[place + 3] = upward ? most : least;
    before = points[place + 3] as number;
    if (Number.isNaN(before)) before = 0;
  }
  return points;
}

/** mV at a moment, on the straight line between its two samples; null where there is no sample. */
export function millivoltAt({ samples, samplingRate }: Pyramid, second: number): number | null {
  const place = second * samplingRate;
  const left = Math.floor(place + 1e-6);
  const before = samples[left];
  const share = Math.max(0, place - left);
  const after = share < 1e-6 ? before : samples[left + 1];
  if (before === undefined || after === undefined) return null;
  const value = before + share * (after - before);
  return Number.isNaN(value) ? null : value;
}

/** Lowest and highest mV of a stretch in s; null where it holds no sample. */
export function extremesIn(
  { samples, samplingRate, levels }: Pyramid,
  from: number,
  to: number,
): readonly [low: number, high: number] | null {
  let index = Math.max(0, Math.ceil(from * samplingRate));
  const last = Math.min(samples.length - 1, Math.floor(to * samplingRate));
  let low = Number.NaN;
  let high = Number.NaN;
  while (index <= last) {
    const level = levels.findLast(({ size }) => index % size === 0 && index + size - 1 <= last);
    const block = level ? index / level.size : index;
    low = lesser(low, (level ? level.low : samples)[block]);
    high = -lesser(-high, minus((level ? level.high : samples)[block]));
    index += level?.size ?? 1;
  }
  return Number.isNaN(low) ? null : [low, high];
}
