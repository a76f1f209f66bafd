import type { Told } from './told.js';

/** Rest and food at home against each other and the anesthesia. */
export function ofHome({ value, earlier, add }: Told): void {
  const { rest, food, 'full activity after': full } = value.home;
  const days = (span: typeof rest) => (span.unit === 'weeks' ? span.value * 7 : span.value);
  if (full !== undefined && days(full) < days(rest)) {
    add(
      'full activity before the end of rest',
      ['home', 'full activity after'],
      full.written,
      `not less than the rest of ${rest.written}`,
      'Mend one of the two.',
    );
  }
  if (food !== undefined && earlier(food.from, value.anesthesia.end)) {
    add(
      'moments out of order',
      ['home', 'food', 'from'],
      food.from,
      `a time after the end of anesthesia at ${value.anesthesia.end}`,
      'Mend the time, or write the date as well.',
    );
  }
}
