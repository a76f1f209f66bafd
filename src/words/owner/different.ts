import type { HomeCase } from '../../facts/case-facts.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import type { OwnerSection } from './owner-sheet.js';

/** What may startle at home without being wrong. */
export const different: OwnerSection = (facts, language) => [
  {
    kind: 'callout',
    tone: 'note',
    minor: true,
    title: language.owner.text('different.title'),
    said: looksDifferent(facts, language),
  },
];

function looksDifferent(facts: HomeCase, { owner, procedures }: Language): Said[] {
  const { identity, patient, surgery, anesthesia, wound } = facts;
  const name = { patient: identity.patientName };
  const dripped = anesthesia.drugs.some(({ route }) => route === 'intravenous');
  const tube = anesthesia.events.some(({ what }) => what === 'intubation');
  return [
    ...(wound.mouth ? [] : [owner.say('different.shaved')]),
    ...procedures.all(`${surgery.procedure.value}.owner.different`, name, 'surgery.procedure'),
    ...(dripped
      ? [owner.say(`different.drip.${patient.species.value}`, {}, 'anesthesia.drugs')]
      : []),
    ...(tube ? [owner.say('different.tube', {}, 'anesthesia.events')] : []),
  ];
}
