import type { Temporal } from 'temporal-polyfill';

/** Hours of half a day. Not a clinical number. */
const HALF_A_DAY = 12;

/** A table begins within so many hours of the start of anesthesia, or its first line settles nothing. Own choice, not a clinical number. */
const BEGINS_WITHIN = 3;

/** What a clock shows that tells no half of the day, to the moment that is meant; null where that is not settled. */
type HalfDayClock = (
  time: Temporal.PlainTime,
  day: Temporal.PlainDate | null,
) => Temporal.PlainDateTime | null;

/**
 * Times of a clock with hours 1-12 and neither AM nor PM, in the order of their lines: the first is the one nearest to the
 * start of anesthesia, each other the one nearest to the line before, so that the clock passes noon and midnight, and a
 * step back stays one. Six hours from both is not settled.
 * @param start what the clock shows at the start of anesthesia
 */
export function halfDayClock(start: Temporal.PlainDateTime): HalfDayClock {
  let before = start;
  let within = BEGINS_WITHIN;
  return (time, day) => {
    const away = (moment: Temporal.PlainDateTime) => Math.abs(before.until(moment).total('hours'));
    const days = day ? [day] : [-1, 0, 1].map((step) => before.toPlainDate().add({ days: step }));
    const [nearest] = days
      .flatMap((one) => {
        const morning = one.toPlainDateTime(time);
        return [morning, morning.add({ hours: HALF_A_DAY })];
      })
      .sort((one, other) => away(one) - away(other));
    if (!nearest || away(nearest) >= within) return null;
    before = nearest;
    within = HALF_A_DAY / 2;
    return nearest;
  };
}
