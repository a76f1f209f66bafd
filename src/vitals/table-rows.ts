import type { ChannelReadings, Reading } from './channel.js';

/** A reading in a row of a table. */
export interface ShownReading {
  readonly value: number;
  /** Whether it describes the patient. */
  readonly isPatients: boolean;
  /** Whether it was computed from other channels rather than read. */
  readonly isComputed: boolean;
}

interface TableRow {
  /** Minutes since the start of anesthesia. */
  readonly minute: number;
  /** One a channel, in their order; null where there is none. */
  readonly readings: readonly (ShownReading | null)[];
}

/** Readings as they are printed, a row for each minute or each few. */
export interface ReadingsTable {
  /** Minutes from row to row; null where each minute with a reading has its row. */
  readonly step: number | null;
  readonly rows: readonly TableRow[];
}

/** A monitor that writes each second fills a hundred pages; so many rows are two of them. Not a clinical number. */
const MOST_ROWS = 60;

/** Anesthesia charts have a column each five minutes, short ones each minute; in minutes. Common practice. */
const STEPS = [1, 5, 10, 15, 30, 60];

/**
 * The readings of a monitor as rows to be read: each of its minutes, or where those are too many, even steps with the
 * reading of each channel that is nearest, up to half a step away. No reading is averaged: a mean of many was never shown.
 */
export function readingsTable(channels: readonly ChannelReadings[]): ReadingsTable {
  const all = channels.map(readingsByMinute);
  const minutes = [...new Set(all.flatMap((readings) => readings.map(minuteOf)))].sort(ascending);
  if (minutes.length <= MOST_ROWS) {
    const at = all.map((readings) => new Map(readings.map((one) => [one.minute, one])));
    const rows = minutes.map((minute) => ({
      minute,
      readings: at.map((readings) => readings.get(minute) ?? null),
    }));
    return { step: null, rows };
  }
  const [first, last] = [minutes[0]!, minutes.at(-1)!];
  const step = STEPS.find((one) => (last - first) / one < MOST_ROWS - 1) ?? STEPS.at(-1)!;
  const rows: TableRow[] = [];
  for (let minute = Math.round(first / step) * step; minute - step / 2 < last; minute += step) {
    const readings = all.map((each) => nearestTo(minute, step / 2, each));
    if (readings.some((one) => one !== null)) rows.push({ minute, readings });
  }
  return { step, rows };
}

interface Shown extends ShownReading {
  readonly minute: number;
}

const minuteOf = ({ minute }: Shown): number => minute;
const ascending = (a: number, b: number): number => a - b;

const readingsByMinute = ({ patient, apart }: ChannelReadings): Shown[] => {
  const shown = (isPatients: boolean) => (one: Reading) => ({
    minute: one.minute,
    value: one.value,
    isPatients,
    isComputed: one.computed === true,
  });
  return [...patient.map(shown(true)), ...apart.map(shown(false))].sort(
    (a, b) => a.minute - b.minute,
  );
};

/** The reading nearest to a minute, of two as near the earlier; null where none is near. `readings` ascend. */
function nearestTo(minute: number, reach: number, readings: readonly Shown[]): Shown | null {
  let nearest: Shown | null = null;
  for (const one of readings) {
    const away = Math.abs(one.minute - minute);
    if (away <= reach && (nearest === null || away < Math.abs(nearest.minute - minute))) {
      nearest = one;
    }
  }
  return nearest;
}
