import { type Mmhg, mmhg } from '../units/brands.js';
import type { ChannelReadings, Reading } from './channel.js';

/**
 * Mean arterial pressure estimated from the other two: diastolic + (systolic − diastolic) / 3, in mmHg.
 * Source: common practice; it assumes that diastole lasts twice as long as systole, which fails at fast rates.
 */
export function estimatedMean(systolic: Mmhg, diastolic: Mmhg): Mmhg {
  return mmhg(diastolic + (systolic - diastolic) / 3);
}

/**
 * The mean pressures to speak of: as read where the monitor gave any, else estimated from systolic and diastolic
 * readings of the same line, and then marked as computed.
 */
export function meanPressure(
  mean: ChannelReadings,
  systolic: ChannelReadings,
  diastolic: ChannelReadings,
): ChannelReadings {
  if (mean.patient.length > 0 || mean.apart.length > 0) return mean;
  const low = new Map(diastolic.patient.map((reading) => [reading.line, reading.value]));
  const patient = systolic.patient.flatMap((reading): Reading[] => {
    const partner = low.get(reading.line);
    return partner === undefined
      ? []
      : [{ ...reading, value: estimatedMean(mmhg(reading.value), mmhg(partner)) }];
  });
  return { ...mean, patient, computed: patient.length > 0 };
}

/**
 * Mean pressure below which this tool speaks of hypotension, mmHg: the lower end of the guideline's "under 60-70".
 * Source: 2020 AAHA Anesthesia and Monitoring Guidelines for Dogs and Cats.
 */
export const LOW_MEAN_PRESSURE = mmhg(60);

/** A run of readings below a limit. */
export interface LowEpisode {
  /** First reading below the limit, minutes since the start of anesthesia. */
  readonly from: number;
  /** First later reading at or above the limit; the last reading where none followed. */
  readonly to: number;
  /** Whether a later reading showed that it ended. */
  readonly ended: boolean;
  readonly lowest: Reading;
}

/**
 * Episodes of readings below a limit, in order. Pressure between two readings is unknown, so an episode reaches from the
 * first low reading to the first reading that was no longer low: an upper bound to what the record can show.
 */
export function episodesBelow(limit: number, readings: readonly Reading[]): LowEpisode[] {
  const episodes: LowEpisode[] = [];
  let run: Reading[] = [];
  const close = (to: number, ended: boolean) => {
    const [first] = run;
    if (!first) return;
    const lowest = run.reduce((best, next) => (next.value < best.value ? next : best), first);
    episodes.push({ from: first.minute, to, ended, lowest });
    run = [];
  };
  for (const reading of readings) {
    if (reading.value < limit) run.push(reading);
    else close(reading.minute, true);
  }
  close(run.at(-1)?.minute ?? 0, false);
  return episodes;
}

/** How long and how far readings lay below a limit. */
export interface Burden {
  readonly minutes: number;
  /** mmHg·min between the limit and the readings. */
  readonly area: number;
}

/**
 * Time and area below a limit, each low reading counted until the reading after it; the last one, with nothing after it,
 * adds none. The minutes are thus those of `episodesBelow`.
 */
export function burdenBelow(limit: number, readings: readonly Reading[]): Burden {
  let minutes = 0;
  let area = 0;
  readings.forEach(({ minute, value }, index) => {
    const next = readings[index + 1];
    if (!next || value >= limit) return;
    minutes += next.minute - minute;
    area += (next.minute - minute) * (limit - value);
  });
  return { minutes, area };
}
