import type { HomeCase, HomeMedicine } from '../../facts/case-facts.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { visits } from './dates.js';
import { inOnePassage } from './one-passage.js';
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

/** Those with hours and those as needed, each with its last day. */
function medicines({ home }: HomeCase, { owner, clock }: Language): Said {
  const { medicines: timed, asNeeded: needed } = home;
  if (timed.length === 0 && needed.length === 0) {
    return owner.say('short.noMedicines', {}, 'home.medicines');
  }
  const count = (all: readonly HomeMedicine[]) =>
    new Set(all.map(({ drug }) => drug.toLowerCase())).size;
  const last = (days: readonly string[]) => clock.shortDay(days.toSorted().at(-1) as string);
  return inOnePassage([
    ...(timed.length === 0
      ? []
      : [
          owner.say(
            'short.medicines',
            {
              count: count(timed),
              day: last(timed.map(({ doses }) => doses.value.at(-1) as string)),
            },
            ...timed.map((_, index) => `home.medicines.${index}.doses`),
          ),
        ]),
    ...(needed.length === 0
      ? []
      : [
          owner.say(
            'short.asNeeded',
            {
              count: count(needed),
              beside: timed.length === 0 ? 'none' : 'others',
              day: last(needed.map(({ until }) => until.value)),
            },
            ...needed.map((_, index) => `home.asNeeded.${index}.until`),
          ),
        ]),
  ]);
}

/** Rest slackens step by step; whoever reads no more than this must not let the patient run before its last step. */
function rest({ plan }: HomeCase, { owner, clock }: Language): Said {
  const full = plan.fullFrom.value;
  return full === null
    ? owner.say('short.restUntilTold', {}, 'plan.fullFrom')
    : owner.say('short.rest', { date: clock.shortDay(full) }, 'plan.fullFrom');
}
