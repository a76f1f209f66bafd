import { answered, asked, type Question } from '../facts/asked.js';
import { ALSO_A_WORD } from '../privacy/common-words.js';
import type { Warning } from '../record/problem.js';
import type { Claims } from './claims.js';

/** What stands before the first word of a sentence, within so many letters: a long text is not read again for each word. Not a clinical number. */
const SENTENCE_BEGINS = /(?:^|[.!?:;]["”’)]*\s+)["“¿¡(]*$/u;
const NEARBY = 12;

/** Words of the longest name that is looked for. Not a clinical number. */
const LONGEST_NAME = 3;

/**
 * Asks where a text of a case names the patient of another one: it may have been written into the wrong record, and an
 * owner would read of a stranger's animal.
 */
export function otherPatients(cases: readonly Claims[]): Warning[] {
  const patients = new Map(cases.map((one) => [one.patient, one]));
  return cases.flatMap(({ name, patient, notes }) =>
    answered(
      notes.texts.flatMap(({ text, place }): Question[] => {
        const other = namesIn(text)
          .filter((found) => !notes.own.some((own) => own.includes(found)))
          .map((found) => patients.get(found))
          .find((found) => found !== undefined && found.name !== name);
        if (!other) return [];
        return [
          {
            ...asked(
              'the name of another patient',
              notes.answeredIn,
              'See whether the text belongs to the other case; if it is meant',
            ),
            ...place,
            found: `${other.patient}, the patient of the case ${other.name}`,
            expected: `words of ${patient} alone`,
          },
        ];
      }),
    ),
  );
}

/**
 * All that may be a name: every run of a few words, without the s of a possessive. A word of the language with which a
 * sentence begins is none for its capital letter: "May lick the wound".
 */
function namesIn(text: string): string[] {
  const words = [...text.matchAll(/[\p{L}\p{M}\d'’-]+/gu)].map(({ 0: word, index }) => ({
    word: word.replace(/['’]s?$/, ''),
    begins: SENTENCE_BEGINS.test(text.slice(Math.max(0, index - NEARBY), index)),
  }));
  return words.flatMap(({ word, begins }, from) =>
    Array.from({ length: LONGEST_NAME }, (_, more) =>
      words
        .slice(from, from + more + 1)
        .map((one) => one.word)
        .join(' '),
    ).slice(begins && ALSO_A_WORD.has(word.toLowerCase()) ? 1 : 0),
  );
}
