import type { HomeCase } from '../../facts/case-facts.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { visits } from './dates.js';
import type { OwnerSection } from './owner-sheet.js';

/** The other points that everything on the sheet comes down to: medicines, rest, the day of each visit, and when not to wait. */
export const inShort: OwnerSection = (facts, language) => [
  {
    kind: 'callout',
    tone: 'note',
    title: language.owner.text('short.title'),
    said: [
      medicines(facts, language),
      rest(facts, language),
      ...visits(facts, language),
      language.owner.say('short.call', { species: facts.patient.species.value }, 'patient.species'),
    ],
  },
];

function medicines({ home }: HomeCase, { owner, clock }: Language): Said {
  const last = home.medicines.map(({ doses }) => doses.value.at(-1) as string).sort();
  const day = last.at(-1);
  if (day === undefined) return owner.say('short.noMedicines', {}, 'home.medicines');
  return owner.say(
    'short.medicines',
    {
      count: new Set(home.medicines.map(({ drug }) => drug.toLowerCase())).size,
      day: clock.shortDay(day),
    },
    ...last.map((_, index) => `home.medicines.${index}.doses`),
  );
}

/** Rest slackens step by step; whoever reads no more than this must not let the patient run before its last step. */
function rest({ plan }: HomeCase, { owner, clock }: Language): Said {
  const full = plan.fullFrom.value;
  return full === null
    ? owner.say('short.restUntilTold', {}, 'plan.fullFrom')
    : owner.say('short.rest', { date: clock.shortDay(full) }, 'plan.fullFrom');
}
