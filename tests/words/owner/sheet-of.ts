import { Temporal } from 'temporal-polyfill';
import { buildFacts } from '../../../src/facts/build-facts.js';
import { readVitals } from '../../../src/record/vitals-file.js';
import type { Language } from '../../../src/words/language.js';
import { ownerSheet } from '../../../src/words/owner/owner-sheet.js';
import { demo } from '../../facts/demo.js';
import { walk } from '../../facts/walk.js';
import { accepted, type Change, caseWith, clinicWith } from '../../record/sample.js';

/** All that the owner's sheet says of the sample with some lines changed. */
export function sheetOf(tag: 'en' | 'es', clinic: Change[], ...changes: Change[]): string {
  const record = accepted(caseWith(...changes));
  const { date } = record.value.surgery;
  const begin = Temporal.PlainDateTime.from(`${date}T${record.value.anesthesia.begin}`);
  const vitals = accepted(readVitals('clock,SpO2 [%]\n09:10,98\n', 'vitals.csv', begin));
  const facts = accepted(buildFacts(clinicWith(...clinic), record, vitals, []));
  const handout = ownerSheet(facts, demo.content.languages.get(tag) as Language, []);
  return [...walk(handout.blocks)]
    .filter(({ path, value }) => /text$/.test(path) && typeof value === 'string')
    .map(({ value }) => value)
    .join('')
    .replaceAll('\u00a0', ' ');
}
