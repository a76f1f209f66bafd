import { excerptInto } from '../filter/excerpt.js';
import { median } from '../filter/spread.js';
import type { BeatWaves } from '../marked-beat.js';
import type { Channel } from '../waveform.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Where P is, before R, s. */
const BEFORE = { from: 0.17, to: 0.05 };
/** Where nothing is, as shares of the time to the next R. */
const AFTER = { from: 0.66, to: 0.7 };
/** Hz. */
const RATE = 150;
/** Beats that tell how much their surroundings differ, and how many times as much is a disturbance. */
const ASKED = 32;
const MORE = 3;
/** Or this share of the usual P, the larger of the two. */
const OF_P = 0.25;

/** R of another shape may stand elsewhere in it, and its P may be nearer, s. */
const SHIFTS = [0, -0.008, 0.008, -0.016, 0.016, -0.024, 0.024];

type Timed = Pick<BeatWaves, 'time'>;

/**
 * Whether the trace beside a beat is as beside the `usual` ones: the P before it, and the level that it
 * comes back to afterwards. A jolt that bends a QRS moves those too; another way through the ventricles
 * leaves them. Places in `beats`.
 */
export function undisturbed(
  leads: readonly Channel[],
  beats: readonly Timed[],
  usual: readonly number[],
): (beat: number) => boolean {
  let known: readonly Usual[] | undefined;
  return (beat) => {
    known ??= leads.map((lead) => usualOn(lead, beats, usual));
    return known.every(({ lead, mean, limit }) => {
      if (mean.length === 0) return true;
      const rows = SHIFTS.flatMap((shift) => besides(lead, beats, beat, shift) ?? []);
      return rows.length === 0 || rows.some((row) => distance(row, mean) <= limit);
    });
  };
}

/** What is usual on one lead, mV. */
interface Usual {
  readonly lead: Channel;
  readonly mean: Float64Array;
  /** Farther from it is a disturbance. */
  readonly limit: number;
}

function usualOn(lead: Channel, beats: readonly Timed[], usual: readonly number[]): Usual {
  const rows = usual.slice(0, ASKED).flatMap((beat) => {
    const row = besides(lead, beats, beat);
    return row ? [row] : [];
  });
  const mean = Float64Array.from({ length: rows[0]?.length ?? 0 }, (_, i) =>
    median(rows.map((row) => row[i]!)),
  );
  const height = mean.length > 0 ? Math.max(...mean) - Math.min(...mean) : 0;
  const typical = median(rows.map((row) => distance(row, mean)));
  return { lead, mean, limit: Math.max(MORE * typical, OF_P * height) };
}

/** The two stretches one after the other, less the mean of the first; null where one cannot be read. */
function besides(
  lead: Channel,
  beats: readonly Timed[],
  beat: number,
  shift = 0,
): Float64Array | null {
  const { time } = beats[beat]!;
  const next = beats[beat + 1]?.time;
  if (next === undefined) return null;
  const first = Math.round((BEFORE.from - BEFORE.to) * RATE);
  const row = new Float64Array(first + LATER);
  excerptInto(lead, time + shift - BEFORE.from, RATE, row, 0, first);
  const from = time + AFTER.from * (next - time);
  const step = ((AFTER.to - AFTER.from) * (next - time)) / LATER;
  excerptInto(lead, from, 1 / step, row, first, LATER);
  const middle = row.subarray(0, first).reduce((sum, value) => sum + value, 0) / first;
  const out = row.map((value) => value - middle);
  return out.every((value) => !Number.isNaN(value)) ? out : null;
}

/** Values of the second stretch. */
const LATER = 4;

/** Root of the mean squared difference. */
function distance(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += (a[i]! - b[i]!) ** 2;
  return Math.sqrt(sum / a.length);
}
