import type { CaseFacts } from '../../facts/case-facts.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import type { OwnerSection } from './owner-sheet.js';

/** The one thing to remember: what would do most harm if it were forgotten. */
export const firstThing: OwnerSection = (facts, language) => [
  {
    kind: 'callout',
    tone: 'first',
    title: language.owner.text('first.title'),
    said: [mostImportant(facts, language)],
  },
];

function mostImportant(
  { identity, patient, wound, home }: CaseFacts,
  { owner, clock }: Language,
): Said {
  const name = { patient: identity.patientName };
  // A rabbit's gut stops within a day of not eating; no wound is as urgent (common practice).
  if (patient.species.value === 'rabbit') return owner.say('first.rabbit', name, 'patient.species');
  if (wound.healing.value === 'left open') return owner.say('first.open', name, 'wound.healing');
  if (home.collarUntil.value !== null) {
    return owner.say(
      'first.collar',
      { ...name, date: clock.day(home.collarUntil.value) },
      'home.collarUntil',
    );
  }
  return owner.say(
    'first.rest',
    { ...name, date: clock.day(home.restUntil.value) },
    'home.restUntil',
  );
}
