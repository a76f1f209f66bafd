import { medianOfFinite } from '../filter/order-statistics.js';
import type { Tip } from './atrial-tip.js';
import type { Bumps } from './bumps.js';
import { steps } from './grid.js';

/** Fewer P waves than this show no rhythm of their own. */
const least = 8;
/** Heights within these shares of the middle one are of one family. */
const alike = { from: 0.5, to: 1.8 };
/** Most of what stands out must be of the family, else it is artefact or fibrillation. */
const most = 0.6;
/** P-P intervals are whole multiples (a P may hide in a QRS) of one cycle, within this share of it. */
const even = 0.15;
/** So many of the intervals must be. */
const evenShare = 0.75;
/** Atria march on: of their waves at least this share is seen, the others hide in QRS and T. */
const seenShare = 0.4;
/** So many cycles without one are time that cannot be read. */
const farthest = 5;
/** Atria that beat faster than this flutter or fibrillate; in s. */
const shortestCycle = 0.18;

/**
 * Where no P keeps to the QRS: the tips that have one height and march evenly, as atria do that the
 * ventricles no longer follow. Null where there is no such family.
 */
export function regularFamily(
  tips: readonly Tip[],
  bumps: Bumps,
): { readonly tips: readonly Tip[]; readonly height: number } | null {
  const families = [1, -1].flatMap((sign) => {
    const ofSign = tips.filter((tip) => tip.sign === sign);
    const height = medianOfFinite(ofSign.map(({ at }) => bumps.heightAt(at)));
    const family = ofSign.filter(({ at }) => {
      const share = bumps.heightAt(at) / height;
      return share >= alike.from && share <= alike.to;
    });
    const isMost = family.length >= least && family.length >= most * tips.length;
    return isMost && marchesEvenly(family) ? [{ tips: family, height }] : [];
  });
  return families[0] ?? null;
}

function marchesEvenly(tips: readonly Tip[]): boolean {
  const gaps = tips.slice(1).map(({ at }, i) => at - tips[i]!.at);
  const sorted = [...gaps].sort((a, b) => a - b);
  // The lower third of the intervals are those without a P lost in between; the lowest tenth where most are lost.
  return [3, 10].some((part) => {
    const cycle = sorted[Math.floor(sorted.length / part)]!;
    return cycle >= steps(shortestCycle) && areSeenThroughout(gaps, cycle) && areWhole(gaps, cycle);
  });
}

/** Time that cannot be read hides any number of them: it does not count. */
function areSeenThroughout(gaps: readonly number[], cycle: number): boolean {
  const near = gaps.filter((gap) => gap <= farthest * cycle);
  return near.length + 1 >= seenShare * near.reduce((sum, gap) => sum + gap / cycle, 0);
}

function areWhole(gaps: readonly number[], cycle: number): boolean {
  const whole = gaps.filter((gap) => {
    const turns = gap / cycle;
    const nearest = Math.round(turns);
    return nearest >= 1 && nearest <= 3 && Math.abs(turns - nearest) <= even * Math.sqrt(nearest);
  });
  return whole.length >= evenShare * gaps.length;
}
