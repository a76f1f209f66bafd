import { type Part, partOf } from '../facts/asked.js';
import type { CaseText } from '../record/case-schema.js';
import type { Place } from '../record/problem.js';
import type { Located } from '../record/yaml-file.js';

/** What an author wrote in a record, for whomever it is, each text with its place. */
export interface Notes {
  readonly texts: readonly { readonly text: string; readonly place: Place }[];
  /** Names of the case itself. */
  readonly own: readonly string[];
  /** Where it is answered why another patient is named. */
  readonly answeredIn: Part;
}

/** The notes of a record, in which another patient may be named by a slip. */
export function notesOf({ value, at }: Located<CaseText>): Notes {
  const { patient, owner, team, surgery, events, monitor, photos, home } = value;
  const note = (text: string | undefined, ...path: (string | number)[]) =>
    text === undefined ? [] : [{ text, place: at(...path) }];
  return {
    texts: [
      ...note(surgery.site, 'surgery', 'site'),
      ...note(surgery['note to owner'], 'surgery', 'note to owner'),
      ...events.flatMap((one, index) => note(one.note, 'events', index, 'note')),
      ...monitor['off patient'].flatMap(({ why }, index) =>
        note(why, 'monitor', 'off patient', index, 'why'),
      ),
      ...photos.flatMap(({ shows }, index) => note(shows, 'photos', index, 'shows')),
      ...(home?.['as needed'] ?? []).flatMap((one, index) =>
        note(one.if, 'home', 'as needed', index, 'if'),
      ),
      ...(home?.awaited ?? []).flatMap(({ result }, index) =>
        note(result, 'home', 'awaited', index, 'result'),
      ),
    ],
    own: [
      ...[patient.name, patient.breed, owner.name, team.surgeon],
      ...(team.anesthesia === undefined ? [] : [team.anesthesia]),
      ...team.others,
    ],
    answeredIn: partOf.patient({ patient }),
  };
}
