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
 * readings of the same minute, and then marked as computed.
 */
export function meanPressure(
  mean: ChannelReadings,
  systolic: ChannelReadings,
  diastolic: ChannelReadings,
): ChannelReadings {
  if (mean.patient.length > 0 || mean.apart.length > 0) return mean;
  const low = new Map(diastolic.patient.map((reading) => [reading.minute, reading.value]));
  const patient = systolic.patient.flatMap((reading): Reading[] => {
    const partner = low.get(reading.minute);
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

/**
 * The upper end of the guideline's "under 60-70" for mean pressure, mmHg: readings between the two ends are told to a learner.
 * Source: 2020 AAHA Anesthesia and Monitoring Guidelines for Dogs and Cats.
 */
export const UPPER_END_OF_LOW_MEAN = mmhg(70);

/**
 * Systolic pressure below which this tool speaks of hypotension where nothing but systolic pressure was measured, mmHg: the
 * upper end of the guideline's "under 80-90", since one value alone says less than a mean.
 * Source: 2020 AAHA Anesthesia and Monitoring Guidelines for Dogs and Cats.
 */
export const LOW_SYSTOLIC_PRESSURE = mmhg(90);

/**
 * A run of readings below a limit, minutes since the start of anesthesia. Pressure between two readings is unknown: if no
 * pressure rose and fell back between low readings, it was low from `from` to `to` at least, and for less than from
 * `before` to `after`.
 */
export interface LowEpisode {
  /** First and last reading below the limit; the same where there is one. */
  readonly from: number;
  readonly to: number;
  /** The last reading before it that was not low; null where there is none. */
  readonly before: number | null;
  /** The first reading after it that was not low; null where there is none, and nobody knows whether it ended. */
  readonly after: number | null;
  readonly lowest: Reading;
}

/** Episodes of readings below a limit, in order. */
export const episodesBelow = (limit: number, readings: readonly Reading[]): LowEpisode[] =>
  episodesWhere((value) => value < limit, readings);

/** Episodes of readings that are low, in order. @param isLow of a value in the channel's unit */
export function episodesWhere(
  isLow: (value: number) => boolean,
  readings: readonly Reading[],
): LowEpisode[] {
  const episodes: LowEpisode[] = [];
  let before: number | null = null;
  let run: Reading[] = [];
  const close = (after: number | null) => {
    const [first, last] = [run[0], run.at(-1)];
    if (!first || !last) return;
    const lowest = run.reduce((best, next) => (next.value < best.value ? next : best), first);
    episodes.push({ from: first.minute, to: last.minute, before, after, lowest });
    run = [];
  };
  for (const reading of readings) {
    if (isLow(reading.value)) {
      run.push(reading);
      continue;
    }
    close(reading.minute);
    before = reading.minute;
  }
  close(null);
  return episodes;
}

/** Bounds of the time below a limit, in minutes; `least` is 0 where a single reading was low. */
export interface LowTime {
  readonly least: number;
  /** Null where readings do not show that it began, or that it ended. */
  readonly most: number | null;
}

/** How long pressure was low in all, as far as readings bound it. */
export function lowTime(episodes: readonly LowEpisode[]): LowTime {
  return episodes.reduce<LowTime>(
    ({ least, most }, { from, to, before, after }) => ({
      least: least + to - from,
      most: most === null || before === null || after === null ? null : most + after - before,
    }),
    { least: 0, most: 0 },
  );
}

/** How long and how far readings lay below a limit, as if each held until the next: a sum, not a time that was measured. */
export interface Burden {
  readonly minutes: number;
  /** mmHg·min between the limit and the readings. */
  readonly area: number;
}

/**
 * Time and area below a limit, each low reading counted until the reading after it; the last one, with nothing after it,
 * adds none. The minutes lie between the bounds of `lowTime`.
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
