import { countBefore } from '../filter/ascending.js';
import { searchRate } from '../filter/qrs-steepness.js';
import { differences, median, mode, quantile, share } from '../filter/spread.js';
import type { Candidate } from './taken.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Fewer waves, or fewer beats among them, keep no time that can be told. */
const ENOUGH = { waves: 4, beats: 3 };
/** Waves that hide in QRS or T for so many beats on end leave a gap; after more of them another stretch begins. */
const HIDDEN = 4;
/** So many of the distances are one, two or three cycles long, each off by no more than this share of one. */
const MARCH = { share: 0.8, off: 0.15, most: 3 };
/** Atria whose P waves no QRS follows are faster than what escapes: a cycle is shorter than this share of the beats'. */
const FASTER = 0.8;
/** Waves that stand at one distance after the beats, within this, s, are tied to them, as beats that take turns are; of free ones no more than this share do. */
const TIED = { within: 0.02, most: 0.3 };
/**
 * Ventricles that were stirred are not stirred again so soon, s; what is nearer may be a beat that two fronts share. So
 * often a wave must stand there, lest an early beat of a ventricle among low ones seem to be one that escapes.
 */
const UNREADY = { from: 0.05, to: 0.2, count: 2 };

/**
 * Places of waves, among those that are low and short beside the beats around them, that come from atria of their own
 * pace: they march, the beats march more slowly, neither keeps step with the other, and some stand, seen or not, where a
 * beat follows sooner than ventricles can be stirred twice. What is nearly as low and in step with them is of them.
 *
 * @param heights mV; @param lower a P is lower than this share of the beats around it
 */
export function freeP(
  beats: readonly Candidate[],
  isLowAndShort: readonly boolean[],
  heights: readonly number[],
  lower: number,
): Set<number> {
  const found = new Set<number>();
  const timeOf = (i: number): number => beats[i]!.position / searchRate;
  for (const { waves, others } of stretches(isLowAndShort)) {
    const usual = median(waves.map((i) => heights[i]!));
    const isAsLow = (i: number): boolean => usual >= lower * heights[i]!;
    const times = waves.map(timeOf);
    const { cycle } = marchOf(times);
    if (!areFree(times, others.filter((i) => !isAsLow(i)).map(timeOf))) continue;
    for (const i of waves) found.add(i);
    for (const i of others) if (isAsLow(i) && isInStep(timeOf(i), times, cycle)) found.add(i);
  }
  return found;
}

/** Whether a time is a whole number of cycles from the march before it, or from its first. */
function isInStep(time: number, march: readonly number[], cycle: number): boolean {
  const last = march[Math.max(0, countBefore(march, (other) => other > time) - 1)]!;
  const cycles = Math.abs(time - last) / cycle;
  return Math.abs(cycles - Math.round(cycles)) <= MARCH.off;
}

interface Stretch {
  readonly waves: number[];
  readonly others: number[];
}

/** The low waves with the beats among them and beside them, as places. */
function stretches(isWave: readonly boolean[]): Stretch[] {
  const out: Stretch[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < isWave.length; i += 1) {
    if (!isWave[i]) continue;
    if (i - last > HIDDEN) out.push({ waves: [], others: i > 0 && !isWave[i - 1] ? [i - 1] : [] });
    else for (let k = last + 1; k < i; k += 1) out.at(-1)!.others.push(k);
    out.at(-1)!.waves.push(i);
    last = i;
    if (isWave[i + 1] === false && !isWave.slice(i + 1, i + 1 + HIDDEN).includes(true)) {
      out.at(-1)!.others.push(i + 1);
    }
  }
  return out;
}

/** @param waves and the `beats` among them, s, ascending */
function areFree(waves: readonly number[], beats: readonly number[]): boolean {
  if (waves.length < ENOUGH.waves || beats.length < ENOUGH.beats) return false;
  const [ofWaves, ofBeats] = [marchOf(waves), marchOf(beats)];
  if (!(ofWaves.share >= MARCH.share && ofBeats.share >= MARCH.share)) return false;
  if (!(ofWaves.cycle < FASTER * ofBeats.cycle)) return false;
  const after: number[] = [];
  for (const wave of waves) {
    const next = countBefore(beats, (beat) => beat > wave);
    if (next > 0) after.push(wave - beats[next - 1]!);
  }
  if (mode(after, TIED.within).count > TIED.most * after.length) return false;
  const near = [...waves, ...hiddenIn(waves, ofWaves.cycle)].filter((wave) => {
    const next = beats[countBefore(beats, (beat) => beat > wave)];
    return next !== undefined && next - wave >= UNREADY.from && next - wave <= UNREADY.to;
  });
  return near.length >= UNREADY.count;
}

/** Times between the waves at which the march goes on unseen, s. */
function hiddenIn(waves: readonly number[], cycle: number): number[] {
  const hidden: number[] = [];
  for (let i = 1; i < waves.length; i += 1) {
    const [from, to] = [waves[i - 1]!, waves[i]!];
    const count = Math.round((to - from) / cycle);
    for (let k = 1; k < count; k += 1) hidden.push(from + (k * (to - from)) / count);
  }
  return hidden;
}

/** The usual distance, and the share of the distances that are whole numbers of it. */
function marchOf(times: readonly number[]): { readonly cycle: number; readonly share: number } {
  const gaps = differences(times);
  const short = quantile(gaps, 0.25);
  const cycle = median(gaps.filter((gap) => gap < 1.4 * short));
  const isWhole = (gap: number): boolean => {
    const whole = Math.round(gap / cycle);
    return whole >= 1 && whole <= MARCH.most && Math.abs(gap / cycle - whole) <= MARCH.off;
  };
  return { cycle, share: share(gaps, isWhole) };
}
