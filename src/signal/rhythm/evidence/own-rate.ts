import { nthSmallest } from '../../filter/order-statistics.js';
import { mean } from '../../filter/spread.js';
import { type Evidence, isFromAbove } from './evidence.js';

/** Beats counted over the time that they fill, beats/min. */
export function meanRate({ beats }: Pick<Evidence, 'beats'>): number {
  const first = beats[0];
  const last = beats.at(-1);
  return first && last && beats.length > 1
    ? (60 * (beats.length - 1)) / (last.time - first.time)
    : Number.NaN;
}

/** Mean rate of the beats that no ventricle started, where four intervals between them tell it, beats/min. */
export function ownRate({ beats, intervals }: Evidence): number {
  const own = intervalsAbove({ beats, intervals });
  return own.length >= 4 ? 60 / mean(own) : meanRate({ beats });
}

function intervalsAbove({ beats, intervals }: Pick<Evidence, 'beats' | 'intervals'>): number[] {
  const own: number[] = [];
  for (let i = 0; i < intervals.length; i += 1) {
    if (isFromAbove(beats[i]!) && isFromAbove(beats[i + 1]!)) own.push(intervals[i]!);
  }
  return own;
}

/** Rate of the fastest quarter of the intervals between beats that no ventricle started, beats/min. */
export function shortRate({ beats, intervals }: Evidence): number {
  const own = new Float64Array(intervalsAbove({ beats, intervals }));
  const quarter = own.length > 0 ? nthSmallest(own, Math.floor(own.length / 4)) : Number.NaN;
  return quarter > 0 ? 60 / quarter : meanRate({ beats });
}
