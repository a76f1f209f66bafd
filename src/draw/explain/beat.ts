import type { Point } from '../drawing.js';

/** One wave of a beat as a bell curve. */
interface Bell {
  /** mV */
  readonly height: number;
  /** s from the peak of R. */
  readonly at: number;
  /** Standard deviation, s. */
  readonly width: number;
}

/** A drawn beat, mV: a picture of the form, not a measured beat (not a clinical number). */
const BELLS: Readonly<Record<'p' | 'q' | 'r' | 's' | 't', Bell>> = {
  p: { height: 0.22, at: -0.115, width: 0.015 },
  q: { height: -0.14, at: -0.019, width: 0.0052 },
  r: { height: 1.5, at: 0, width: 0.0075 },
  s: { height: -0.28, at: 0.019, width: 0.006 },
  t: { height: 0.34, at: 0.19, width: 0.032 },
};

/** How far from its middle a bell is seen, in standard deviations. */
const SEEN = 2.6;

/** Where a wave begins, peaks and ends, s from the peak of R. */
export function waveOf(name: keyof typeof BELLS) {
  const { at, width, height } = BELLS[name];
  return { from: at - SEEN * width, at, to: at + SEEN * width, height };
}

/** Voltage in mV at a time in s from the peak of R: a sum of bells, after the model of McSharry and others 2003. */
export function voltage(time: number, tHeight = BELLS.t.height): number {
  return Object.entries(BELLS).reduce((sum, [name, { height, at, width }]) => {
    const tall = name === 't' ? tHeight : height;
    return sum + tall * Math.exp(-((time - at) ** 2) / (2 * width ** 2));
  }, 0);
}

/** Where a trace stands on its sheet. */
export interface TraceFrame {
  /** mm */
  readonly left: number;
  readonly right: number;
  /** Height of 0 mV, mm. */
  readonly baseline: number;
  /** mm in a second and in a mV. */
  readonly speed: number;
  readonly gain: number;
}

/** The trace of beats whose R peaks stand at some times, s from the left edge. */
export function trace(
  { left, right, baseline, speed, gain }: TraceFrame,
  peaks: readonly number[],
  tHeight?: number,
): Point[] {
  const step = 0.15;
  const count = Math.round((right - left) / step);
  return Array.from({ length: count + 1 }, (_, i): Point => {
    const x = left + ((right - left) * i) / count;
    const time = (x - left) / speed;
    const sum = peaks.reduce((all, peak) => all + voltage(time - peak, tHeight), 0);
    return [x, baseline - sum * gain];
  });
}
