import { type Cleared, clearPassages, type KnownName } from '../privacy/passages.js';
import { roundedWeight } from '../privacy/public-facts.js';
import type { Outcome } from '../record/problem.js';
import type { Language } from '../words/language.js';
import type { Phrasebook } from '../words/phrasebook.js';
import { isPublished, type Loaded } from './load.js';
import type { LoadedCase } from './load-case.js';

/** The author's own words of a case as they may be public, or what has to be decided first. */
export function clearCase(
  { facts, freeTexts, decisions }: LoadedCase,
  learner: Phrasebook,
): Outcome<Cleared> {
  const exact = facts.patient.weight.value;
  return clearPassages(freeTexts, namesOf(facts, learner), decisions, {
    exact,
    rounded: roundedWeight(exact),
  });
}

function namesOf({ identity, consent }: LoadedCase['facts'], learner: Phrasebook): KnownName[] {
  const { owner, clinic, patientName, surgeon, anesthetist } = identity;
  const consenting = Object.values(consent).flatMap(({ by }) => by ?? []);
  const names = {
    patient: [patientName],
    owner: [owner.name, ...consenting],
    veterinarian: [surgeon],
    assistant: anesthetist === null ? [] : [anesthetist],
    clinic: [clinic.name, clinic.emergency.name],
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
