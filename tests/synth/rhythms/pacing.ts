import type { Random } from '../random.js';
import type { Stage } from './setting.js';

/** One firing of a pacemaker: when, and after how long an interval (s). */
export interface Firing {
  readonly time: number;
  readonly rr: number;
}

export interface Pacing {
  /** Beats/min at a time in s. */
  readonly rateAt: (time: number) => number;
  /** Standard deviation of each interval as a fraction of it. */
  readonly jitter: number;
  readonly from: number;
  readonly to: number;
  readonly random: Random;
}

/**
 * A pacemaker whose rate may change at any time: it fires each time that the integral of the rate
 * has grown by one beat. Jitter then shortens or lengthens the interval.
 */
export function firings({ rateAt, jitter, from, to, random }: Pacing): Firing[] {
  const fired: Firing[] = [];
  let time = from + random.between(0.1, 0.9) * (60 / rateAt(from));
  let rr = 60 / rateAt(from);
  while (time < to) {
    fired.push({ time, rr });
    rr = intervalFrom(time, rateAt) * (1 + jitter * Math.max(-3, Math.min(3, random.gaussian())));
    time += rr;
  }
  return fired;
}

/** Firings over the whole stage at one rate, beats/min. */
export function steadyFirings(stage: Stage, rate: number, jitter: number): Firing[] {
  return firings({
    rateAt: () => rate,
    jitter,
    from: 0,
    to: stage.duration,
    random: stage.random,
  });
}

const STEP = 0.002;

/** Seconds until the rate has added up to one beat, by small steps and a straight line in the last. */
function intervalFrom(start: number, rateAt: (time: number) => number): number {
  let beats = 0;
  for (let elapsed = 0; ; elapsed += STEP) {
    const gain = (rateAt(start + elapsed + STEP / 2) / 60) * STEP;
    if (beats + gain >= 1) return elapsed + (STEP * (1 - beats)) / gain;
    beats += gain;
  }
}
