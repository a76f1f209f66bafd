import type { Told } from './told.js';

/** Rest and food at home against each other and the anesthesia. */
export function ofHome({ value, earlier, add }: Told): void {
  if (value.home === undefined) return;
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
  const drain = value.closure?.drain;
  for (const [index, { what, after }] of value.home.rechecks.entries()) {
    if (what !== 'drain') continue;
    if (drain === undefined) {
      add(
        'a day to take out nothing',
        ['home', 'rechecks', index, 'what'],
        'a visit for the drain',
        'a drain under closure, as the sheet would not tell of it',
        'Write "drain: { what: …, out after: … }" under closure, or mend what the visit is for.',
      );
      continue;
    }
    if (days(after) <= days(drain['out after'])) continue;
    add(
      'moments out of order',
      ['home', 'rechecks', index, 'after'],
      `a visit for the drain after ${after.written}`,
      `a day not after the ${drain['out after'].written} after which it comes out`,
      'Mend one of the two, or write "what: wound check".',
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
