import { identifiersOf } from '../privacy/identifiers.js';
import { type Cleared, clearPassages, type KnownName } from '../privacy/passages.js';
import { roundedWeight } from '../privacy/public-facts.js';
import type { Outcome } from '../record/problem.js';
import { once } from '../units/once.js';
import type { Language } from '../words/language.js';
import type { Phrasebook } from '../words/phrasebook.js';
import { isPublished } from './is-published.js';
import type { Loaded } from './load.js';
import type { LoadedCase } from './load-case.js';
import { ownText } from './own-text.js';

/** The author's own words of a case as they may be public, or what has to be decided first. */
export function clearCase(one: LoadedCase, learner: Phrasebook): Outcome<Cleared> {
  const before = known.get(one);
  if (before?.learner === learner) return before.cleared;
  const cleared = clear(one, learner);
  known.set(one, { learner, cleared });
  return cleared;
}

/** A preview asks for a case at each of its pages. */
const known = new WeakMap<
  LoadedCase,
  { readonly learner: Phrasebook; readonly cleared: Outcome<Cleared> }
>();

function clear(
  { facts, beside, freeTexts, decisions }: LoadedCase,
  learner: Phrasebook,
): Outcome<Cleared> {
  const { patient, identity } = facts;
  return clearPassages(
    freeTexts,
    {
      names: namesOf(facts, learner),
      people: [
        identity.owner.name,
        identity.surgeon,
        ...(identity.anesthetist === null ? [] : [identity.anesthetist]),
        ...identity.others,
        ...beside.signed.flatMap(({ by }) => by ?? []),
      ],
      // A day is asked for by its form, however it is written, and sought in all that is public.
      identifiers: identifiersOf(facts, beside).filter(
        ({ text }) => !/^\d{4}-\d\d-\d\d$/.test(text),
      ),
      own: readOnce(),
      patient: {
        weight: {
          exact: patient.weight.value,
          rounded: roundedWeight(patient.weight.value),
        },
        age: patient.age.value,
        breed: patient.breed.value,
      },
    },
    decisions,
  );
}

/** For all cases of a build. */
const readOnce = once(ownText);

function namesOf({ identity, consent }: LoadedCase['facts'], learner: Phrasebook): KnownName[] {
  const { owner, clinic, patientName, surgeon, anesthetist, others } = identity;
  const consenting = Object.values(consent).flatMap(({ by }) => by ?? []);
  const names = {
    patient: [patientName],
    owner: [owner.name, ...consenting],
    veterinarian: [surgeon],
    assistant: [...(anesthetist === null ? [] : [anesthetist]), ...others],
    clinic: [clinic.name, ...(clinic.emergency ? [clinic.emergency.name] : [])],
  };
  return Object.entries(names).flatMap(([who, all]) =>
    [...new Set(all)].map((name) => ({ name, neutral: learner.text(`neutral.${who}`) })),
  );
}

/** The same of each case with consent, by name. */
export function clearAll({ clinic, content, cases }: Loaded): Map<string, Outcome<Cleared>> {
  const { learner } = content.languages.get(clinic.languages[0] as string) as Language;
  return new Map(
    cases.filter(isPublished).map((one) => [one.name, clearCase(one, learner)] as const),
  );
}
