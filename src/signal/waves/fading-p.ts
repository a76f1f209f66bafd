import type { Tip } from './atrial-tip.js';
import type { Bumps } from './bumps.js';
import { type ConductedP, earliestTip, ownTip } from './conducted-p.js';
import type { Group } from './group.js';
import type { Ventricles } from './ventricles.js';

/** A fading P stands so far out of noise, and is this share of the one beside it at the least. */
const overNoiseAtLeast = 5;
const ofBeside = 0.45;

/** What is known where the usual P waves have been given to their beats. */
interface Known {
  readonly ventricles: Ventricles;
  /** R peaks, on the grid. */
  readonly beats: readonly number[];
  readonly bumps: Bumps;
  /** Height of the usual P, with its sign. */
  readonly usual: number;
  /** Noise of each group. */
  readonly spreads: readonly number[];
  /** P of each beat, null where it has none. */
  readonly own: readonly (Tip | null)[];
  /** P of each group, and how far it usually lies before QRS, where a group has none. */
  readonly shared: readonly (ConductedP | null)[];
  readonly usualBefore: number;
}

/**
 * Where the pacemaker wanders, P is lower from beat to beat, down to a fraction of the usual one: a low P is one if it
 * stands clearly out of noise at its place and the one beside it is not so much higher. Gives those of the beats that
 * had none, null for all others.
 */
export function fadingTips(known: Known): readonly (Tip | null)[] {
  const { own, bumps } = known;
  const low = lowTips(known);
  const found = low.map((): Tip | null => null);
  for (const step of [1, -1]) {
    for (let n = 1; n < low.length; n++) {
      const k = step > 0 ? n : low.length - 1 - n;
      const beside = own[k - step] ?? found[k - step];
      const tip = low[k];
      if (own[k] || found[k] || !tip || !beside || beside.sign !== tip.sign) continue;
      if (bumps.heightAt(tip.at) / bumps.heightAt(beside.at) >= ofBeside) found[k] = tip;
    }
  }
  return found;
}

/** Of each beat that was given no P, what stands out where its group has one, or where others of its shape have. */
function lowTips(known: Known): readonly (Tip | null)[] {
  const { ventricles, own, beats, shared, usualBefore, spreads } = known;
  const isLed = ({ members }: Group): boolean => members.some((member) => own[member]);
  const led = new Set(ventricles.groups.filter(isLed).map(({ family }) => family));
  const low = new Array<Tip | null>(beats.length).fill(null);
  ventricles.groups.forEach((group, g) => {
    if (!led.has(group.family)) return;
    const offset = shared[g]?.offset ?? group.qrs.onset - usualBefore;
    for (let m = 0; m < group.members.length; m++) {
      const member = group.members[m]!;
      if (own[member]) continue;
      low[member] = lowTip(known, member, group.positions[m]!, Math.round(offset), spreads[g]!);
    }
  });
  return low;
}

function lowTip(
  { ventricles, beats, bumps, usual }: Known,
  member: number,
  position: number,
  offset: number,
  spread: number,
): Tip | null {
  const sign = Math.sign(usual);
  const at = ownTip(position, offset, sign, bumps);
  if (at < 0 || at < earliestTip(member, ventricles, beats)) return null;
  const overNoise = (sign * bumps.heightAt(at)) / spread;
  return overNoise >= overNoiseAtLeast && bumps.isWave(at) ? { at, sign, overNoise } : null;
}
