import type { VitalsTable } from '../record/vitals-file.js';
import type { ChannelName } from '../record/vocabulary.js';

/** One reading of one channel. */
export interface Reading {
  /** Minutes since the start of anesthesia. */
  readonly minute: number;
  /** In the channel's unit. */
  readonly value: number;
  /** Line of the vitals file. */
  readonly line: number;
  /** Where it was computed from other channels rather than read. */
  readonly computed?: true;
  /** Where the sensor was off the patient at some time since the reading before it: what lay between, nobody saw. */
  readonly afterOff?: true;
}

/** A span during which a sensor was not on the patient, in minutes since the start of anesthesia. */
export interface OffPatient {
  readonly channel: ChannelName;
  readonly from: number;
  readonly to: number;
  readonly why: string;
}

/** Why a channel of breaths does not describe a patient on a ventilator; other reasons are the author's own words. */
export const BY_VENTILATOR = 'the ventilator gave the breaths';

/** Why a channel says nothing of a patient from its death on. */
export const AFTER_DEATH = 'the patient had died';

/**
 * A channel as far as it speaks of the patient. `apart` holds what the sensor showed while it was off the patient,
 * breaths that the ventilator gave, and what was read after a death: drawn apart, and left out of every statement. Source: common practice.
 */
export interface ChannelReadings {
  readonly channel: ChannelName;
  readonly unit: string;
  readonly patient: readonly Reading[];
  readonly apart: readonly (Reading & { readonly why: string })[];
}

/** Splits a channel's readings into the patient's own and those that are not. */
export function readingsOf(
  table: VitalsTable,
  channel: ChannelName,
  unit: string,
  off: readonly OffPatient[],
): ChannelReadings {
  const patient: Reading[] = [];
  const apart: (Reading & { why: string })[] = [];
  for (const row of table.rows) {
    const value = row.values[channel];
    if (value === undefined) continue;
    const reading = { minute: row.minute, value, line: row.lines?.[channel] ?? row.line };
    const why = reasonOff(off, channel, row.minute);
    if (why === null) patient.push(reading);
    else apart.push({ ...reading, why });
  }
  return { channel, unit, patient: markedAfterOff(patient, off, () => [channel]), apart };
}

/**
 * The readings, each marked where a sensor that it or the one before it rests on was off the patient between the two.
 * @param restsOn the channels whose sensors a reading needs
 */
export const markedAfterOff = (
  readings: readonly Reading[],
  off: readonly OffPatient[],
  restsOn: (reading: Reading) => readonly ChannelName[],
): Reading[] =>
  readings.map((reading, index) => {
    const before = readings[index - 1];
    const isHidden =
      before !== undefined &&
      off.some(
        ({ channel, from, to }) =>
          from < reading.minute &&
          to > before.minute &&
          (restsOn(before).includes(channel) || restsOn(reading).includes(channel)),
      );
    return isHidden ? { ...reading, afterOff: true } : reading;
  });

/** Why a channel does not describe the patient at a minute since the start of anesthesia; null where it does. */
export function reasonOff(
  off: readonly OffPatient[],
  channel: ChannelName,
  minute: number,
): string | null {
  const span = off.find(
    (candidate) =>
      candidate.channel === channel && minute >= candidate.from && minute <= candidate.to,
  );
  return span?.why ?? null;
}

/** Readings that stand apart for one reason, with none of the patient's own between them; minutes of the first and the last. */
export interface ApartSpan {
  readonly from: number;
  readonly to: number;
  readonly why: string;
}

/** The stretches in which a channel does not describe the patient, in order of time. */
export function apartSpans({
  patient,
  apart,
}: Pick<ChannelReadings, 'patient' | 'apart'>): ApartSpan[] {
  const spans: ApartSpan[] = [];
  for (const { minute, why } of apart) {
    const last = spans.at(-1);
    const isOn =
      last?.why === why && !patient.some((own) => own.minute > last.to && own.minute < minute);
    if (last && isOn) spans[spans.length - 1] = { ...last, to: minute };
    else spans.push({ from: minute, to: minute, why });
  }
  return spans;
}

/** Lowest, highest and median of the patient's readings; null without any. */
export interface Spread {
  readonly lowest: Reading;
  readonly highest: Reading;
  readonly median: number;
  readonly count: number;
}

/** Lowest, highest and median reading; null where there is none. */
export function spreadOf(readings: readonly Reading[]): Spread | null {
  const [first] = readings;
  if (!first) return null;
  const sorted = readings.map((reading) => reading.value).sort((a, b) => a - b);
  const middle = sorted.length / 2;
  const median =
    sorted.length % 2 === 1
      ? (sorted[Math.floor(middle)] as number)
      : ((sorted[middle - 1] as number) + (sorted[middle] as number)) / 2;
  const pick = (better: (a: number, b: number) => boolean) =>
    readings.reduce((best, next) => (better(next.value, best.value) ? next : best), first);
  return {
    lowest: pick((a, b) => a < b),
    highest: pick((a, b) => a > b),
    median,
    count: readings.length,
  };
}
