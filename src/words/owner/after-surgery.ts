import type { Said } from '../handout.js';
import { inOnePassage } from './one-passage.js';
import type { OwnerSection } from './owner-sheet.js';

/** What was done, and what the first night asks for. */
export const afterSurgery: OwnerSection = (
  { identity, patient, surgery },
  { owner, procedures },
) => {
  const name = { patient: identity.patientName };
  const done: Said[] = [
    procedures.say(`${surgery.procedure.value}.owner.done`, name, 'surgery.procedure'),
  ];
  if (surgery.site.value !== null) {
    done.push(owner.say('done.site', { site: surgery.site.value }, 'surgery.site'));
  }
  if (surgery.noteToOwner.value !== null) {
    done.push(owner.say('done.note', { note: surgery.noteToOwner.value }, 'surgery.noteToOwner'));
  }
  return [
    { kind: 'heading', level: 2, text: owner.text('done.title') },
    { kind: 'paragraph', said: inOnePassage(done) },
    { kind: 'heading', level: 2, text: owner.text('tonight.title') },
    {
      kind: 'list',
      ordered: false,
      items: owner.all(`tonight.${patient.species.value}`, name, 'patient.species'),
    },
  ];
};
