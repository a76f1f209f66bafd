import { type CaseText, type DeathText, type HomeText, wentHome } from '../record/case-schema.js';
import type { Clinic } from '../record/clinic-schema.js';
import type { Formulary } from '../record/formulary-schema.js';
import { bad, good, type Outcome } from '../record/problem.js';
import type { Located } from '../record/yaml-file.js';
import type { Kilogram } from '../units/brands.js';
import type { Question } from './asked.js';
import type { AnyCase, CaseFacts, DeathFacts, Leaving } from './case-facts.js';
import { courseWarnings } from './course-warnings.js';
import { stayWarnings } from './days-at-home.js';
import { computed, type Fact, notKnown, recorded } from './fact.js';
import { foodWarnings } from './food-warnings.js';
import { homeFacts } from './home.js';
import { planFacts, planWarnings } from './plan.js';
import { minutePrecision, type Timeline } from './timeline.js';
import { woundFacts } from './wound.js';

/** How a case ends, and what a veterinarian is asked about that. */
interface Ending {
  readonly warnings: readonly Question[];
  /** Puts the ending to what is told of every case. */
  readonly complete: (shared: AnyCase) => CaseFacts;
}

/** The way home with all that is to do there, or the death and nothing else. */
export function endingOf(
  clinic: Clinic,
  record: Located<CaseText>,
  formulary: Formulary | null,
  time: Timeline,
  weight: Fact<Kilogram>,
): Outcome<Ending> {
  if (wentHome(record)) return wayHome(clinic, record, formulary, time, weight);
  const death = deathFacts(record as Located<DeathText>, time);
  return good({ warnings: [], complete: (shared) => ({ ...shared, death }) });
}

function wayHome(
  clinic: Clinic,
  record: Located<HomeText>,
  formulary: Formulary | null,
  time: Timeline,
  weight: Fact<Kilogram>,
): Outcome<Ending> {
  const home = homeFacts(record, clinic, formulary, time, weight);
  const wound = woundFacts(record, clinic);
  if (!home.ok || !wound.ok) {
    return bad(...[wound, home].flatMap((part) => (part.ok ? [] : part.problems)));
  }
  const plan = planFacts(record, formulary, time, wound.value.wound, home.value.home);
  const leaving = leavingFacts(record, time);
  return good({
    warnings: [
      ...wound.value.warnings,
      ...home.value.warnings,
      ...courseWarnings(record, home.value.home),
      ...foodWarnings(record, clinic['time zone'], time, home.value.home.medicines),
      ...planWarnings(record, time, wound.value.wound, home.value.home, plan),
      ...stayWarnings(record, time, wound.value.wound, home.value.home, plan),
    ],
    complete: (shared) => ({
      ...shared,
      surgery: { ...shared.surgery, ...leaving },
      wound: wound.value.wound,
      home: home.value.home,
      plan,
    }),
  });
}

function leavingFacts({ value, where }: Located<HomeText>, time: Timeline): Leaving {
  const { discharge, 'note to owner': note } = value.surgery;
  return {
    discharge: recorded(minutePrecision(time.local(discharge)), where('surgery', 'discharge')),
    noteToOwner: note
      ? recorded(note, where('surgery', 'note to owner'))
      : notKnown('The surgeon left no note.'),
  };
}

function deathFacts({ value, where }: Located<DeathText>, time: Timeline): DeathFacts {
  const index = value.events.findIndex(({ what }) => what === 'death');
  const death = value.events[index];
  if (!death) throw new Error('a record without a way home tells a death');
  const { at, note } = death;
  const minute = time.minuteOf(time.local(at));
  const place = where('events', index, 'at');
  return {
    at: recorded(minutePrecision(time.local(at)), place),
    minute: computed(minute, 'death less begin, in minutes', where('anesthesia', 'begin'), place),
    afterwards: computed(
      minute - time.minutes,
      'death less end of anesthesia, in minutes',
      where('anesthesia', 'end'),
      place,
    ),
    said: note
      ? recorded(note, where('events', index, 'note'))
      : notKnown('The record states no cause.'),
  };
}
