import { median, share } from '../../filter/spread.js';
import type { MarkedBeat, Patient, Wave } from '../../marked-beat.js';
import { intervalLimits } from '../interval-limits.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Slow hearts and cold ones have a QT over the longest of the tables by up to this share. */
const LONGER = 1.2;
/** A T is lower than this share of its QRS, but for those that come in their time. */
const TALL = 0.5;
/** It is so many times as high as P: a P that no QRS follows may be taken for T as well. */
const OVER_P = 1.5;
/** Fewer beats show no T of a kind. */
const ENOUGH = 4;

/**
 * Share of the beats behind whose narrow QRS a wave was taken for T that is too late and too tall to be one: an early wide
 * beat after each may look so. 0 where no QT range is at hand.
 */
export function lateTallT(beats: readonly MarkedBeat[], patient: Patient): number {
  const limits = intervalLimits(patient);
  const withT = beats.filter(hasBoth);
  if (!limits || withT.length < ENOUGH) return 0;
  const heightsOfP = beats.flatMap(({ p }) => (p ? [Math.abs(p.height)] : []));
  const lowest = heightsOfP.length > 0 ? OVER_P * median(heightsOfP) : 0;
  const isLate = ({ qrs, t }: WithBoth): boolean =>
    t.end - qrs.onset > LONGER * limits.longestQt &&
    qrs.end - qrs.onset <= limits.wideQrs &&
    Math.abs(t.height) >= Math.max(lowest, TALL * Math.abs(qrs.height));
  return share(withT, isLate);
}

type WithBoth = MarkedBeat & { readonly qrs: Wave; readonly t: Wave };

const hasBoth = (beat: MarkedBeat): beat is WithBoth => beat.qrs !== null && beat.t !== null;
