import { mustKeepEating } from '../../care/plan.js';
import type { HomeCase } from '../../facts/case-facts.js';
import type { Block, Said } from '../handout.js';
import type { Language } from '../language.js';
import { inOnePassage } from './one-passage.js';
import type { OwnerSection } from './owner-sheet.js';

/** What was done, and what the surgeon wrote about it. */
export const afterSurgery: OwnerSection = (facts, language) => {
  const { identity, surgery } = facts;
  const { owner, procedures } = language;
  const name = { patient: identity.patientName };
  const done: Said[] = [
    procedures.say(`${surgery.procedure.value}.owner.done`, name, 'surgery.procedure'),
  ];
  if (surgery.site.value !== null) {
    done.push(owner.say('done.site', { site: surgery.site.value }, 'surgery.site'));
  }
  return [
    { kind: 'heading', level: 2, text: owner.text('done.title') },
    { kind: 'paragraph', said: inOnePassage(done) },
    ...note(facts, language),
  ];
};

/** What the first night asks for. */
export const firstNight: OwnerSection = (facts, language) => [
  { kind: 'heading', level: 2, text: language.owner.text('tonight.title') },
  { kind: 'list', ordered: false, items: tonight(facts, language) },
];

/** What the veterinarian wrote for this owner; it may give advice, so it has a heading of its own. */
function note({ surgery }: HomeCase, { owner }: Language): Block[] {
  const { value } = surgery.noteToOwner;
  if (value === null) return [];
  return [
    { kind: 'heading', level: 3, text: owner.text('done.note') },
    { kind: 'paragraph', said: { runs: [{ text: value }], facts: ['surgery.noteToOwner'] } },
  ];
}

function tonight(facts: HomeCase, language: Language): Said[] {
  const { identity, patient, plan } = facts;
  const { owner } = language;
  const name = { patient: identity.patientName };
  // Rabbits and ferrets show little of it (common practice).
  return [
    ...food(facts, language),
    ...whereToKeep(facts, language),
    ...owner.all(
      `tonight.${patient.species.value}`,
      { ...name, food: mayEatAtOnce(facts) ? 'now' : 'later' },
      'patient.species',
    ),
    ...(plan.opioid.value && ['dog', 'cat'].includes(patient.species.value)
      ? [owner.say('tonight.opioid', name, 'plan.opioid')]
      : []),
  ];
}

/**
 * Where to keep the patient on its first night. That it may be weak from the anesthesia is said only as long as it may be:
 * later it would pass for normal.
 */
function whereToKeep({ identity, patient, plan }: HomeCase, { owner }: Language): Said[] {
  const species = patient.species.value;
  if (species !== 'dog' && species !== 'cat') return [];
  return [
    inOnePassage([
      ...(plan.awake
        ? []
        : [owner.say('tonight.sleepy', { patient: identity.patientName }, 'surgery.discharge')]),
      owner.say(`tonight.safe.${species}`, {}, 'patient.species'),
    ]),
  ];
}

/** Whether food is put down at once: where the record says so, or where it says nothing and the species must not fast. */
const mayEatAtOnce = ({ patient, plan }: HomeCase): boolean =>
  plan.food.value?.atOnce ?? mustKeepEating(patient.species.value);

/** When and what to feed; nothing is guessed, but a species that must not fast is fed at once (common practice). */
function food({ identity, patient, plan, surgery }: HomeCase, { owner, clock }: Language): Said[] {
  const meal = plan.food.value;
  if (meal) {
    const tonight = meal.from.slice(0, 10) === surgery.discharge.value.slice(0, 10);
    return [
      owner.say(
        meal.atOnce ? 'tonight.food.now' : tonight ? 'tonight.food.from' : 'tonight.food.fromDay',
        {
          day: clock.shortDay(meal.from),
          time: clock.time(meal.from),
          much: owner.text(`tonight.food.much.${meal.amount}`),
          kind: owner.text(`tonight.food.kind.${meal.kind}`),
        },
        'plan.food',
      ),
    ];
  }
  return mustKeepEating(patient.species.value)
    ? []
    : [owner.say('tonight.food.unknown', { patient: identity.patientName }, 'plan.food')];
}
