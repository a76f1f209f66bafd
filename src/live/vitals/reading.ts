import type { LiveVitals } from '../contract.js';
import type { Saying } from '../saying.js';

/** Every minute at which something was read, in order. */
export const minutesOf = ({ chart }: LiveVitals): number[] =>
  [
    ...new Set(
      chart.series.flatMap(({ readings }) =>
        readings.flatMap(({ minute, value }) => (value === null ? [] : [minute])),
      ),
    ),
  ].sort((a, b) => a - b);

/** The reading minute nearest to a minute; the earlier of two as near. */
export const nearest = (minutes: readonly number[], to: number): number =>
  minutes.reduce(
    (best, minute) => (Math.abs(minute - to) < Math.abs(best - to) ? minute : best),
    minutes[0] as number,
  );

/** What the chart shows at one minute of readings, as lines of text. */
export interface Spoken {
  readonly title: string;
  readonly values: readonly string[];
  /** A stretch of low pressure, and the events since the readings before. */
  readonly notes: readonly string[];
}

export function readingAt(vitals: LiveVitals, minute: number, say: Saying): Spoken {
  const { chart, series, events, low } = vitals;
  const before =
    minutesOf(vitals)
      .filter((one) => one < minute)
      .at(-1) ?? -Infinity;
  return {
    title: say('vitals.at', { minute: number(minute) }),
    values: chart.series.map(({ readings }, index) => {
      const { name, unit } = series[index] as LiveVitals['series'][number];
      const reading = readings.find((one) => one.minute === minute && one.value !== null);
      if (!reading) return say('vitals.none', { name });
      const told = { name, unit, value: number(reading.value as number) };
      return say(reading.offPatient ? 'vitals.room' : 'vitals.value', told);
    }),
    notes: [
      ...(low !== null && chart.episodes.some(({ from, to }) => minute >= from && minute <= to)
        ? [
            say('vitals.low', {
              limit: low.limit,
              minutes: number(low.minutes),
              area: number(low.area),
            }),
          ]
        : []),
      ...chart.events.flatMap((event, index) =>
        event.minute > before && event.minute <= minute
          ? [
              say('vitals.event', {
                number: event.number,
                minute: number(event.minute),
                what: events[index] ?? '',
              }),
            ]
          : [],
      ),
    ],
  };
}

/** One decimal at most, as the page's own table has it. */
const number = (value: number): string => String(Math.round(value * 10) / 10);
