import type { ReadStrip } from '../../facts/strip.js';
import type { PublicFacts } from '../../privacy/public-facts.js';
import type { Language } from '../../words/language.js';
import { answerSheet, questionSheet } from '../../words/teaching/exercises.js';
import { anonymousRecord } from './anonymous-record.js';
import { recordSchema } from './record-schema.js';
import { stripFiles } from './strip-files.js';
import { vitalsCsv } from './vitals-csv.js';

/** One file beside the anonymized record. */
interface PackFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface Pack {
  readonly files: readonly PackFile[];
  /** For the teacher alone, as text. */
  readonly answers: Uint8Array;
}

/** All that goes with an anonymized record: the data, the samples and the questions; nothing here reads a case folder. */
export function packOf(
  facts: PublicFacts,
  strips: readonly ReadStrip[],
  language: Language,
  checked: boolean,
): Pack {
  const written = strips.map((strip, index) => {
    const name = `ecg_${index + 1}`;
    return { name, files: stripFiles(strip, name) };
  });
  const record = recordSchema.parse(anonymousRecord(facts, written, checked));
  const text = (words: string) => new TextEncoder().encode(words);
  return {
    files: [
      { name: 'record.json', bytes: text(`${JSON.stringify(record, null, 2)}\n`) },
      { name: 'vitals.csv', bytes: text(vitalsCsv(facts.vitals.channels)) },
      ...written.flatMap(({ name, files }) => [
        ...(files.edf ? [{ name: `${name}.edf`, bytes: files.edf }] : []),
        { name: `${name}.hea`, bytes: files.hea },
        { name: `${name}.dat`, bytes: files.dat },
      ]),
      { name: 'questions.txt', bytes: text(questionSheet(facts, language)) },
    ],
    answers: text(answerSheet(facts, language)),
  };
}
