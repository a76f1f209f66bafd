import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { toldCase } from '../../src/cli/told-case.js';
import { buildFacts } from '../../src/facts/build-facts.js';
import type { HomeCase } from '../../src/facts/case-facts.js';
import { DOSE_STEPS } from '../../src/record/clinic-schema.js';
import { readVitals } from '../../src/record/vitals-file.js';
import { textOf } from '../../src/words/handout-text.js';
import type { Language } from '../../src/words/language.js';
import { calendarEntries } from '../../src/words/owner/calendar-entries.js';
import { medicines } from '../../src/words/owner/medicines.js';
import { accepted, type Change, caseWith, clinicWith } from '../record/sample.js';
import { demo } from './demo.js';

const vitals = accepted(
  readVitals(
    'clock,SpO2 [%]\n09:10,98\n',
    'vitals.csv',
    Temporal.PlainDateTime.from('2026-03-09T09:10').toZonedDateTime('America/Chicago'),
  ),
);
/** The sample with the clinic's own rules; its one medicine is given every 12 h, the last dose in the clinic at 08:40. */
const facts = (rules: string | null, ...changes: Change[]): HomeCase =>
  accepted(
    buildFacts(
      clinicWith(
        ...(rules ? [['time zone:', `home doses: { ${rules} }\ntime zone:`] as const] : []),
      ),
      accepted(caseWith(...changes)),
      vitals,
      [],
    ),
  );
const of = (rules: string | null, ...changes: Change[]) => {
  const [only] = facts(rules, ...changes).home.medicines;
  if (!only) throw new Error('The sample has one medicine.');
  return only;
};
const spoken = (tag: string) => demo.content.languages.get(tag) as Language;
const sheet = (given: HomeCase, tag = 'en') =>
  textOf(medicines(given, spoken(tag))).replaceAll('\u00a0', ' ');

describe('the hours of doses at home', () => {
  it('are to the minute where the clinic states no rule', () => {
    const medicine = of(null);
    expect(medicine.doses.value[0]).toBe('2026-03-09T20:40-05:00');
    expect(medicine.exactFirst).toBeUndefined();
  });

  it('begin at the next step of the clock by the rule of the clinic, and the exact instant stays a fact', () => {
    const medicine = of('rounded up to: 30 min');
    expect(medicine.doses.value.slice(0, 2)).toEqual([
      '2026-03-09T21:00-05:00',
      '2026-03-10T09:00-05:00',
    ]);
    expect(medicine.doses.from).toContain('clinic.yaml home doses');
    expect(medicine.doses).toHaveProperty(
      'how',
      expect.stringContaining('rounded up to the next 30 min'),
    );
    expect(medicine.exactFirst?.value).toBe('2026-03-09T20:40-05:00');
    expect(toldCase(facts('rounded up to: 30 min')).join('\n')).toMatch(
      /first +.*21:00.*, rounded up from .*20:40/,
    );
  });

  it('say nothing of a rule that moved nothing', () => {
    const medicine = of('rounded up to: 20 min');
    expect(medicine.exactFirst).toBeUndefined();
    expect(medicine).toEqual(of(null));
  });

  it('are the same on the sheet and in the calendar', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 45 }),
        fc.constantFrom(...(Object.keys(DOSE_STEPS) as (keyof typeof DOSE_STEPS)[])),
        (minute, step) => {
          const given = facts(`rounded up to: ${step}`, [
            'last given: 08:40',
            `last given: 08:${String(minute).padStart(2, '0')}`,
          ]);
          const due = given.home.medicines[0]?.doses.value ?? [];
          const [table] = medicines(given, spoken('en')).filter(({ kind }) => kind === 'table');
          const ticks = table?.kind === 'table' ? table.rows[0]?.[1] : null;
          const boxes = ticks?.kind === 'ticks' ? ticks.days.flatMap((day) => day.boxes) : [];
          expect(boxes).toEqual(due.map((dose) => spoken('en').clock.time(dose)));
          const called = calendarEntries(given, spoken('en')).filter(({ key }) =>
            key.startsWith('dose/'),
          );
          expect(called.map(({ on }) => on)).toEqual(due);
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('a dose that is late', () => {
  it('is to be asked about where the clinic states no rule', () => {
    expect(sheet(facts(null))).toContain('If a dose is late or missed, do not give two. Call us.');
    expect(sheet(facts(null), 'es')).toContain('Si una dosis se atrasa o se olvida, no dé dos.');
  });

  it('is told by the rule of the clinic, in the number of its unit', () => {
    const given = facts('late by more than: 2 h');
    expect(given.home.lateBy?.value?.value).toBe(2);
    expect(sheet(given)).toContain('If a dose is late by more than 2 hours, call us first.');
    expect(sheet(given, 'es')).toContain('Si una dosis se atrasa más de 2 horas, llámenos antes.');
    expect(sheet(facts('late by more than: 1 h'))).toContain('more than 1 hour, call');
    expect(sheet(facts('late by more than: 90 min'))).toContain('more than 90 minutes, call');
  });

  it('is not told by a rule that would reach past half of the way to the next dose', () => {
    const given = facts('late by more than: 8 h');
    expect(given.home.lateBy).toMatchObject({
      value: null,
      why: 'The clinic allows 8 h, and a dose here follows after 12 h.',
    });
    expect(sheet(given)).toContain('If a dose is late or missed, do not give two. Call us.');
    expect(sheet(given)).not.toContain('8 hours');
  });
});
