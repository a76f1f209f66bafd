import type { HomeCase } from '../../facts/case-facts.js';
import { NEVER_APPROVED, type Standing } from '../../facts/standing.js';
import { readText } from '../handout-text.js';
import type { Language } from '../language.js';
import { draftMark } from './approval.js';
import { named } from './changes.js';
import { type DayToKeep, daysToKeep } from './dates.js';
import { amountAtOnce, howToGive, onLabel } from './one-medicine.js';
import { whoAnswers } from './opening-hours.js';

/** One thing in the owner's calendar. */
export interface CalendarEntry {
  /** What it is and its ordinal: names the same thing on every later sheet, and no person. */
  readonly key: string;
  readonly title: string;
  readonly details: string;
  /** An instant with its distance from UTC, `2026-03-10T20:00-05:00`, or a whole day, `2026-03-24`. */
  readonly on: string;
  /** Minutes from its begin, or from midnight of its day, to the alarm; negative before it. Null for no alarm. */
  readonly alarm: number | null;
  /** An earlier sheet asked for it; this one does not. */
  readonly cancelled: boolean;
}

/** Nine in the morning, in minutes from midnight. Not a clinical number. */
const MORNING = 9 * 60;
/** Nine in the morning of the day before. Not a clinical number. */
const MORNING_BEFORE = MORNING - 24 * 60;

/**
 * When an alarm calls, in minutes from midnight: the day before where one has to leave the house. The last day of what is
 * given only as needed stands in the calendar, so that nobody gives it later, and has none: it would be taken for a call to
 * give it now, as that of a dose at its hour is one.
 */
const ALARM: Record<DayToKeep['kind'], number | null> = {
  visit: MORNING_BEFORE,
  removal: MORNING_BEFORE,
  'at home': MORNING,
  'last day': null,
};

/**
 * Every dose with its hour and every day to keep, in the order of the sheet. An approved sheet also calls off what earlier ones asked
 * for and it does not; a draft calls off nothing.
 */
export function calendarEntries(
  facts: HomeCase,
  language: Language,
  standing: Standing = NEVER_APPROVED,
): CalendarEntry[] {
  const entries = [...doses(facts, language), ...days(facts, language)];
  const draft = draftMark(standing, language);
  if (draft !== null) {
    return entries.map((entry) => ({
      ...entry,
      title: language.owner.text('calendar.draft', { title: entry.title }),
      details: `${draft} ${entry.details}`,
    }));
  }
  const wanted = new Set(entries.map(({ key }) => key));
  return [
    ...entries,
    ...earlierEntries(facts, language, standing).filter(({ key }) => !wanted.has(key)),
  ];
}

/** Whom to call at the hour of a dose. */
function answering({ clinic }: HomeCase['identity'], on: string) {
  const { name, phone } = whoAnswers(clinic, on);
  return { phone, who: name === null ? 'us' : 'others', name: name ?? '' };
}

const doseKey = (name: string, index: number) => `dose/${name}/${index + 1}`;

function doses({ identity, home }: HomeCase, language: Language): CalendarEntry[] {
  const { owner } = language;
  const patient = identity.patientName;
  const places = new Map(home.medicines.map((medicine, index) => [medicine, index]));
  return [...named(home.medicines)].flatMap(([name, medicine]) => {
    const { drug } = medicine;
    const strength = onLabel(medicine.strength, language);
    const at = `home.medicines.${places.get(medicine)}`;
    const how = readText(howToGive(medicine, at, language));
    const amount = amountAtOnce(medicine, language);
    const all = medicine.doses.value;
    return all.map((on, index) => ({
      key: doseKey(name, index),
      title: owner.text('calendar.dose', { patient, drug, amount }),
      details: owner.text('calendar.doseDetails', {
        ...{ drug, strength, how, number: index + 1, count: all.length },
        ...answering(identity, on),
      }),
      on,
      alarm: 0,
      cancelled: false,
    }));
  });
}

function days(facts: HomeCase, language: Language): CalendarEntry[] {
  const { owner } = language;
  const { patientName: patient, clinic } = facts.identity;
  return daysToKeep(facts, language).flatMap(({ key, kind, on, what }) => {
    // Stitches that wait for a day still have a first one.
    const day = on ?? (kind === 'removal' ? (facts.wound.removal?.value.from ?? null) : null);
    const text = readText(what);
    return day === null
      ? []
      : [
          {
            key,
            title: owner.text('calendar.day', { patient, what: firstSentence(text) }),
            details: owner.text('calendar.dayDetails', { what: text, phone: clinic.phone }),
            on: day,
            alarm: ALARM[kind],
            cancelled: false,
          },
        ];
  });
}

/** What all approved sheets before asked for, the newest word on each. */
function earlierEntries(
  { identity }: HomeCase,
  { owner }: Language,
  { approvals }: Standing,
): CalendarEntry[] {
  const patient = identity.patientName;
  const found = new Map<string, CalendarEntry>();
  const add = (key: string, on: string, what: string) =>
    found.set(key, {
      ...{ key, on, alarm: null, cancelled: true },
      title: owner.text('calendar.gone', { patient, what: firstSentence(what) }),
      details: owner.text('calendar.goneDetails', { phone: identity.clinic.phone }),
    });
  for (const { statements } of approvals) {
    for (const [name, { drug, doses }] of named(statements.medicines)) {
      doses.forEach((on, index) => {
        add(doseKey(name, index), on, drug);
      });
    }
    for (const { fact, what, on } of statements.days) if (on !== null) add(fact, on, what);
  }
  return [...found.values()];
}

/** Up to its stop, without it. */
const firstSentence = (text: string): string => text.replace(/\.(\s[\s\S]*)?$/, '');
