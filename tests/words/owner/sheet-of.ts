import { Temporal } from 'temporal-polyfill';
import { buildFacts } from '../../../src/facts/build-facts.js';
import type { HomeCase } from '../../../src/facts/case-facts.js';
import type { Outcome } from '../../../src/record/problem.js';
import { readVitals } from '../../../src/record/vitals-file.js';
import { ownersLanguage } from '../../../src/words/language.js';
import { ownerSheet } from '../../../src/words/owner/owner-sheet.js';
import { demo } from '../../facts/demo.js';
import { walk } from '../../facts/walk.js';
import { accepted, type Change, caseWith, clinicWith } from '../../record/sample.js';

/** The facts of the sample with some lines changed. */
export const factsOf = (clinic: Change[], ...changes: Change[]): HomeCase =>
  accepted(builtFrom(clinic, ...changes));

/** The same, or what speaks against them. */
export function builtFrom(clinic: Change[], ...changes: Change[]): Outcome<HomeCase> {
  const record = accepted(caseWith(...changes));
  const { date } = record.value.surgery;
  const begin = Temporal.PlainDateTime.from(
    `${date}T${record.value.anesthesia.begin}`,
  ).toZonedDateTime('America/Chicago');
  const vitals = accepted(readVitals('clock,SpO2 [%]\n09:10,98\n', 'vitals.csv', begin));
  return buildFacts(clinicWith(...clinic), record, vitals, []);
}

/** All that the owner's sheet says of them, its sender first. */
export function sheetOf(tag: 'en' | 'es', clinic: Change[], ...changes: Change[]): string {
  const facts = factsOf(clinic, ...changes);
  const { owner } = facts.identity;
  const language = ownersLanguage(demo.content.languages, {
    ...facts.identity,
    owner: { ...owner, language: tag },
  });
  const { sender, blocks } = ownerSheet(facts, language, []);
  const said = [...walk(blocks)]
    .filter(({ path, value }) => /text$/.test(path) && typeof value === 'string')
    .map(({ value }) => value);
  return [...sender, ...said].join('').replaceAll('\u00a0', ' ');
}
