import type { Breath } from './beat-plan.js';

export interface CapnogramShape {
  /** CO2 at the end of expiration, mmHg. */
  readonly endTidal: number;
  /** CO2 while breathing in, mmHg. Defaults to 0. */
  readonly inspired?: number;
}

/** Expired gas of the dead space passes before CO2 shows, s. */
const DEAD_SPACE = 0.25;
const RISE = 0.35;
const FALL = 0.2;
/** The plateau starts at this share of the end-tidal value and climbs to it. */
const PLATEAU_START = 0.93;

/**
 * CO2 in mmHg at `samplingRate` Hz: a trapezoid a breath. It falls when a breath begins, stays at the
 * inspired value until inspiration is over and the dead space is washed out, rises, and climbs along
 * a gentle plateau until the next breath. Before the first breath it stands at the plateau's end.
 */
export function capnogram(
  breaths: readonly Breath[],
  duration: number,
  samplingRate: number,
  { endTidal, inspired = 0 }: CapnogramShape,
): Float64Array {
  const samples = new Float64Array(Math.round(duration * samplingRate));
  let current = -1;
  for (let i = 0; i < samples.length; i += 1) {
    const time = i / samplingRate;
    while (breaths[current + 1] !== undefined && breaths[current + 1]!.time <= time) current += 1;
    const breath = breaths[current];
    const next = breaths[current + 1]?.time ?? duration;
    const share = breath
      ? shareOfEndTidal(time - breath.time, breath.inspiration, next - breath.time)
      : 1;
    samples[i] = inspired + (endTidal - inspired) * share;
  }
  return samples;
}

/** 0 to 1 at `since` s after the start of a breath whose next begins `period` s after it. */
function shareOfEndTidal(since: number, inspiration: number, period: number): number {
  const riseStart = inspiration + DEAD_SPACE;
  const plateauStart = riseStart + RISE;
  if (since < FALL) return 1 - since / FALL;
  if (since < riseStart) return 0;
  if (since < plateauStart) return (PLATEAU_START * (since - riseStart)) / RISE;
  const along = (since - plateauStart) / Math.max(period - plateauStart, RISE);
  return PLATEAU_START + (1 - PLATEAU_START) * Math.min(1, along);
}
