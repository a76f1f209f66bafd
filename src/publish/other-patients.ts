import type { Warning } from '../record/problem.js';
import type { Claims } from './load.js';

/** Words of the longest name that is looked for. Not a clinical number. */
const LONGEST_NAME = 3;

/**
 * Asks where a text of a case names the patient of another one: it may have been written into the wrong record, and an
 * owner would read of a stranger's animal.
 */
export function otherPatients(cases: readonly Claims[]): Warning[] {
  const patients = new Map(cases.map((one) => [one.patient, one]));
  return cases.flatMap(({ name, patient, notes }) =>
    notes.texts.flatMap(({ text, place }): Warning[] => {
      const other = namesIn(text)
        .filter((found) => !notes.own.some((own) => own.includes(found)))
        .map((found) => patients.get(found))
        .find((found) => found !== undefined && found.name !== name);
      if (!other) return [];
      return [
        {
          kind: 'the name of another patient',
          ...place,
          found: `${other.patient}, the patient of the case ${other.name}`,
          expected: `words of ${patient} alone`,
          mend: 'See whether the text belongs to the other case. If it is meant, write "accepted because:" with the reason under patient.',
          accepted: notes.accepted,
        },
      ];
    }),
  );
}

/** All that may be a name: every run of a few words, without the s of a possessive. */
function namesIn(text: string): string[] {
  const words = (text.match(/[\p{L}\p{M}\d'’-]+/gu) ?? []).map((word) =>
    word.replace(/['’]s?$/, ''),
  );
  return words.flatMap((_, from) =>
    Array.from({ length: LONGEST_NAME }, (_, more) => words.slice(from, from + more + 1).join(' ')),
  );
}
