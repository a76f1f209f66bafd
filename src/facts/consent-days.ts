import { Temporal } from 'temporal-polyfill';
import { type CaseText, CONSENTS } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import { asked, partOf, type Question } from './asked.js';

/** Days before the surgery in which an owner is asked. Own choice, not a clinical number: beyond them a year is mistyped. */
const LONGEST_BEFORE = 60;

/** Days after the surgery in which an owner is asked. Own choice, not a clinical number. */
const LONGEST_AFTER = 300;

/**
 * Asks about a consent that was given far from the day of surgery: every dose and visit is counted from that day, the age is
 * told by it, and a year that is mistyped shows nowhere else in a record whose other moments have no date.
 */
export function consentDays({ value, at }: Located<CaseText>): Question[] {
  const surgery = Temporal.PlainDate.from(value.surgery.date);
  for (const kind of CONSENTS) {
    const { on } = value.consent[kind];
    if (on === undefined) continue;
    const days = surgery.until(on).days;
    if (days >= -LONGEST_BEFORE && days <= LONGEST_AFTER) continue;
    return [
      {
        ...asked(
          'a consent far from the surgery',
          partOf.patient(value),
          'Mend the date of the surgery, on which every dose and visit rests, or that of the consent',
        ),
        ...at('consent', kind, 'on'),
        found: `${on}, ${Math.abs(days)} days ${days < 0 ? 'before' : 'after'} the surgery on ${value.surgery.date}`,
        expected: `a day at most ${LONGEST_BEFORE} days before it or ${LONGEST_AFTER} days after it`,
      },
    ];
  }
  return [];
}
