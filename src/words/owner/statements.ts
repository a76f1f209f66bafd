import type { HomeCase } from '../../facts/case-facts.js';
import type { Statements } from '../../record/approval-schema.js';
import { readText, textOf } from '../handout-text.js';
import type { Language } from '../language.js';
import { afterSurgery, firstNight } from './after-surgery.js';
import { limits } from './as-needed.js';
import { daysToKeep } from './dates.js';
import { amountAtOnce, howToGive } from './one-medicine.js';
import { inOnePassage } from './one-passage.js';
import type { OwnerSection } from './owner-sheet.js';
import { plan } from './plan.js';
import { callNow, tellLater } from './warning-signs.js';
import { wound } from './wound.js';

/** Parts that are compared as a whole, by the key of their title. */
const PARTS: Readonly<Record<string, OwnerSection>> = {
  call: (...given) => [...callNow(...given), ...tellLater(...given)],
  done: afterSurgery,
  tonight: firstNight,
  wound,
  plan,
};

/** What the owner's sheet asks of the owner, kept with an approval so that a later sheet can name what has changed. */
export const statementsOf = (facts: HomeCase, language: Language): Statements => ({
  medicines: facts.home.medicines.map((medicine, index) => ({
    drug: medicine.drug,
    strength: medicine.strength,
    amount: amountAtOnce(medicine, language),
    how: readText(howToGive(medicine, `home.medicines.${index}`, language)),
    doses: [...medicine.doses.value],
  })),
  asNeeded: facts.home.asNeeded.map((medicine, index) => {
    const at = `home.asNeeded.${index}`;
    return {
      drug: medicine.drug,
      strength: medicine.strength,
      amount: amountAtOnce(medicine, language),
      how: readText(howToGive(medicine, at, language)),
      sign: medicine.sign.value,
      limits: readText(inOnePassage(limits(facts, index, language))),
    };
  }),
  days: daysToKeep(facts, language).map(({ key, on, what }) => ({
    fact: key,
    what: readText(what),
    on,
  })),
  parts: Object.fromEntries(
    Object.entries(PARTS).map(([key, part]) => [key, textOf(part(facts, language))]),
  ),
});
