import { type Mmhg, mmhg } from '../units/brands.js';
import { roundTo } from '../units/round.js';
import {
  type ChannelReadings,
  markedAfterOff,
  type OffPatient,
  type Reading,
  reasonOff,
} from './channel.js';

/**
 * Mean arterial pressure estimated from the other two: diastolic + (systolic − diastolic) / 3, in mmHg.
 * Source: common practice; it assumes that diastole lasts twice as long as systole, which fails at fast rates.
 */
export function estimatedMean(systolic: Mmhg, diastolic: Mmhg): Mmhg {
  return mmhg(diastolic + (systolic - diastolic) / 3);
}

/**
 * The mean pressures to speak of, line by line: as read where the monitor gave one, else estimated from the systolic and
 * diastolic reading of the same minute and marked as computed. Where the mean was off the patient nothing stands for it.
 * @param off when which sensor was off the patient
 */
export function meanPressure(
  mean: ChannelReadings,
  systolic: ChannelReadings,
  diastolic: ChannelReadings,
  off: readonly OffPatient[],
): ChannelReadings {
  const read = new Set(mean.patient.map(({ minute }) => minute));
  const low = new Map(diastolic.patient.map(({ minute, value }) => [minute, value]));
  const estimated = systolic.patient.flatMap(({ minute, value, line }): Reading[] => {
    const partner = low.get(minute);
    if (partner === undefined || read.has(minute)) return [];
    if (reasonOff(off, 'mean', minute) !== null) return [];
    return [{ minute, value: estimatedMean(mmhg(value), mmhg(partner)), line, computed: true }];
  });
  const patient = [...mean.patient.map(unmarked), ...estimated].sort((a, b) => a.minute - b.minute);
  return { ...mean, patient: markedAfterOff(patient, off, sensorsOf) };
}

/** Without the mark of what lay before it in its own channel: among the estimates another reading lies before it. */
const unmarked = ({ afterOff: _, ...reading }: Reading): Reading => reading;

const sensorsOf = ({ computed }: Reading) =>
  computed ? (['mean', 'systolic', 'diastolic'] as const) : (['mean'] as const);

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
  /** The last reading before it that was not low; null where there is none, or the sensor was off the patient since. */
  readonly before: number | null;
  /** The first reading after it that was not low; null where there is none, or the sensor was off the patient before it. */
  readonly after: number | null;
  /** Where the sensor was off the patient just before it, or just after it, and put back: that side was not seen. */
  readonly unseen?: 'before' | 'after' | 'both';
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
  const close = (after: number | null, isHidden = false) => {
    const [first, last] = [run[0], run.at(-1)];
    if (!first || !last) return;
    const lowest = run.reduce((best, next) => (next.value < best.value ? next : best), first);
    const unseen = unseenSides(first.afterOff === true, isHidden);
    episodes.push({
      from: first.minute,
      to: last.minute,
      before,
      after,
      ...(unseen && { unseen }),
      lowest,
    });
    run = [];
  };
  for (const reading of readings) {
    if (reading.afterOff) {
      close(null, true);
      before = null;
    }
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

function unseenSides(before: boolean, after: boolean): LowEpisode['unseen'] {
  if (before && after) return 'both';
  return before ? 'before' : after ? 'after' : undefined;
}

/** Whether the end of an episode lies where no reading of the patient follows at all. */
export const isLast = ({ after, unseen }: LowEpisode): boolean =>
  after === null && unseen !== 'after' && unseen !== 'both';

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

/** Whole minutes within which the bounds of a time lie, as any reader is told them: never a bound that the readings do not bear. */
export const wholeMinutes = ({ least, most }: LowTime): LowTime => ({
  least: Math.floor(roundTo(least, DIGITS)),
  most: most === null ? null : Math.ceil(roundTo(most, DIGITS)),
});

/** Times are differences: equal ones may differ in their last digits. Not a clinical number. */
const DIGITS = 6;

/** How long and how far readings lay below a limit, as if each held until the next: a sum, not a time that was measured. */
export interface Burden {
  readonly minutes: number;
  /** mmHg·min between the limit and the readings. */
  readonly area: number;
}

/**
 * Time and area below a limit, each low reading counted until the reading after it; one with nothing after it, or with
 * the sensor off the patient before that, adds none. The minutes lie between the bounds of `lowTime`.
 */
export function burdenBelow(limit: number, readings: readonly Reading[]): Burden {
  let minutes = 0;
  let area = 0;
  readings.forEach(({ minute, value }, index) => {
    const next = readings[index + 1];
    if (!next || next.afterOff || value >= limit) return;
    minutes += next.minute - minute;
    area += (next.minute - minute) * (limit - value);
  });
  return { minutes, area };
}
