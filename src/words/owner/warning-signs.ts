import type { Rank } from '../../care/warning-topics.js';
import type { HomeCase } from '../../facts/case-facts.js';
import type { Said } from '../handout.js';
import { readText } from '../handout-text.js';
import type { Language } from '../language.js';
import { openingHours } from './opening-hours.js';
import type { OwnerSection } from './owner-sheet.js';

/** What to act on now, with whom to call. */
export const callNow: OwnerSection = (facts, language) => {
  const { owner } = language;
  const { clinic } = facts.identity;
  return [
    {
      kind: 'callout',
      tone: 'warning',
      title: owner.text('call.title'),
      said: signs('now', facts, language),
      telephones: clinic.emergency
        ? [
            {
              label: owner.text('call.day', { hours: openingHours(clinic.opening, language) }),
              number: clinic.phone,
            },
            {
              label: owner.text('call.night', { name: clinic.emergency.name }),
              number: clinic.emergency.phone,
            },
          ]
        : [{ label: owner.text('call.always'), number: clinic.phone }],
    },
  ];
};

/** What can wait until the clinic opens, and what until the next visit. */
export const tellLater: OwnerSection = (facts, language) => [
  {
    kind: 'callout',
    tone: 'note',
    title: language.owner.text('call.todayTitle'),
    said: signs('today', facts, language),
  },
  ...[signs('visit', facts, language)]
    .filter((said) => said.length > 0)
    .map((said) => ({
      kind: 'callout' as const,
      tone: 'note' as const,
      minor: true as const,
      title: language.owner.text('call.visitTitle'),
      said,
    })),
];

/** The signs of one rank: those of the operation after those of the patient and its wound, none said twice. */
function signs(
  rank: Rank,
  { identity, patient, surgery, plan }: HomeCase,
  { owner, procedures }: Language,
): Said[] {
  const name = { patient: identity.patientName, species: patient.species.value };
  const all = [
    ...plan.signs.value.flatMap((topic) => owner.all(`signs.${rank}.${topic}`, name, 'plan.signs')),
    ...procedures.all(`${surgery.procedure.value}.owner.signs.${rank}`, name, 'surgery.procedure'),
  ];
  const seen = new Set<string>();
  return all.filter((said) => {
    const text = readText(said);
    // What the signs of a species tell already, those of an operation leave out.
    return text === '' || seen.has(text) ? false : seen.add(text);
  });
}
