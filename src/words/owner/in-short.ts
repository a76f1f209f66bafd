import type { CaseFacts } from '../../facts/case-facts.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { visitsOf } from './dates.js';
import { mostImportantIs } from './first-thing.js';
import type { OwnerSection } from './owner-sheet.js';

/** The other points that everything on the sheet comes down to: medicines, rest, visits and when not to wait. */
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

/** How many days of the sheet lead to the clinic, and the first of them. */
function visits(facts: CaseFacts, language: Language): Said[] {
  const { owner, clock } = language;
  const all = visitsOf(facts, language);
  const days = [...new Set(all.map(({ on }) => on))].filter((on) => on !== null);
  const [first] = days;
  if (first === undefined) return [];
  return [
    owner.say(
      'short.visits',
      { count: days.length, date: clock.shortDay(first) },
      ...all.flatMap(({ what }) => what.facts),
    ),
  ];
}
