import type { CaseFacts } from '../../facts/case-facts.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { visits } from './dates.js';
import { mostImportantIs } from './first-thing.js';
import type { OwnerSection } from './owner-sheet.js';

/** The other points that everything on the sheet comes down to: medicines, rest, the day of each visit, and when not to wait. */
export const inShort: OwnerSection = (facts, language) => [
  {
    kind: 'callout',
    tone: 'note',
    title: language.owner.text('short.title'),
    said: [
      medicines(facts, language),
      ...rest(facts, language),
      ...visits(facts, language),
      language.owner.say('short.call'),
    ],
  },
];

function medicines({ home }: CaseFacts, { owner, clock }: Language): Said {
  const last = home.medicines.map(({ doses }) => doses.value.at(-1) as string).sort();
  const day = last.at(-1);
  if (day === undefined) return owner.say('short.noMedicines', {}, 'home.medicines');
  return owner.say(
    'short.medicines',
    { count: last.length, day: clock.shortDay(day) },
    ...last.map((_, index) => `home.medicines.${index}.doses`),
  );
}

/** Nothing where rest is the one thing to remember. */
function rest(facts: CaseFacts, { owner, clock }: Language): Said[] {
  if (mostImportantIs(facts) === 'rest') return [];
  const date = clock.shortDay(facts.home.restUntil.value);
  return [owner.say('short.rest', { date }, 'home.restUntil')];
}
