import { describe, expect, it } from 'vitest';
import type { HomeCase } from '../../../src/facts/case-facts.js';
import { printPdf } from '../../../src/publish/pdf/print.js';
import type { Language } from '../../../src/words/language.js';
import { ownerSheet } from '../../../src/words/owner/owner-sheet.js';
import { demo } from '../../facts/demo.js';
import { hasProgram, overFile } from '../programs.js';

const CASES = demo.cases.map(({ name, facts }) => ({ name, facts: facts as HomeCase }));
const PAPERS = ['Letter', 'A4'] as const;
const LANGUAGES = ['en', 'es'] as const;

/** A page of 18 points holds little: whoever needs the telephone must not turn it first. */
describe.runIf(hasProgram('pdftotext'))('the first page in large type', () => {
  const prints = PAPERS.flatMap((paper) =>
    LANGUAGES.flatMap((tag) => CASES.map((one) => ({ ...one, paper, tag }))),
  );
  it.each(prints)('of $name tells when to call, and both numbers: $tag, $paper', (print) => {
    const { identity } = print.facts;
    const large = { ...identity, owner: { ...identity.owner, largeType: true } };
    const language = demo.content.languages.get(print.tag) as Language;
    const sheet = ownerSheet({ ...print.facts, identity: large }, language, []);
    const { clinic } = identity;
    // A draft, which has less room.
    const pdf = printPdf({ ...sheet, paper: print.paper });
    const first = overFile(pdf, 'pdftotext', '-l', '1', '-raw', 'FILE', '-').text;
    const title = language.owner.text('call.title');
    const told = first.slice(first.indexOf(title));
    expect(first).toContain(title);
    // The first stands at the head as well.
    expect(told).toContain(clinic.phone);
    expect(told).toContain(clinic.emergency?.phone);
  });
});
