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

/** What would do most harm if it were forgotten. */
export function mostImportantIs({
  patient,
  wound,
  home,
}: CaseFacts): 'rabbit' | 'open' | 'collar' | 'rest' {
  // A rabbit's gut stops within a day of not eating; no wound is as urgent (common practice).
  if (patient.species.value === 'rabbit') return 'rabbit';
  if (wound.healing.value === 'left open') return 'open';
  return home.collarUntil.value !== null ? 'collar' : 'rest';
}

function mostImportant(facts: CaseFacts, { owner, clock }: Language): Said {
  const { identity, home } = facts;
  const name = { patient: identity.patientName };
  switch (mostImportantIs(facts)) {
    case 'rabbit':
      return owner.say('first.rabbit', name, 'patient.species');
    case 'open':
      return owner.say('first.open', name, 'wound.healing');
    case 'collar': {
      const date = clock.day(home.collarUntil.value as string);
      return owner.say('first.collar', { ...name, date }, 'home.collarUntil');
    }
    case 'rest': {
      const date = clock.day(home.restUntil.value);
      return owner.say('first.rest', { ...name, date }, 'home.restUntil');
    }
  }
}
