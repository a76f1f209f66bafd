import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { buildFacts } from '../../../src/facts/build-facts.js';
import { type MadeForHome, makeCase } from '../../../src/publish/make-case.js';
import { printPdf } from '../../../src/publish/pdf/print.js';
import { readVitals } from '../../../src/record/vitals-file.js';
import type { Handout } from '../../../src/words/handout.js';
import type { Language } from '../../../src/words/language.js';
import { ownerSheet } from '../../../src/words/owner/owner-sheet.js';
import { demo } from '../../facts/demo.js';
import { accepted, caseWith, clinicWith } from '../../record/sample.js';
import { failuresOf } from '../../tools/pdf-ua/checkpoints.js';
import { examine } from '../../tools/pdf-ua/document.js';
import { PdfObjects } from '../../tools/pdf-ua/objects.js';
import { alongTheTree } from '../../tools/pdf-ua/reading-order.js';
import { spokenHandout, squeezed } from '../../tools/spoken-handout.js';
import { hasProgram, overFile } from '../programs.js';

/** A spay without trouble: stitches that dissolve under the skin, one medicine once a day, one visit. */
function simpleSheet(paper: Handout['paper']): Handout {
  const record = accepted(
    caseWith(
      ['procedure: skin lump removal', 'procedure: spay'],
      ['neutered: yes', 'neutered: no'],
      [
        'layer: skin, material: nylon, size: 4-0, pattern: simple interrupted',
        'layer: within the skin, material: poliglecaprone 25, size: 4-0, pattern: intradermal',
      ],
      ['strength: 50 mg/tablet', 'strength: 25 mg/tablet'],
      ['give: 1/2 tablet', 'give: 1 tablet'],
      ['every: 12 h', 'every: 24 h'],
      ['last given: 08:40', 'last given: 10:40'],
      ['doses: 6', 'doses: 4'],
      ['dispensed: 3 tablets', 'dispensed: 4 tablets'],
    ),
  );
  const begin = Temporal.PlainDateTime.from('2026-03-09T09:10').toZonedDateTime('America/Chicago');
  const vitals = accepted(readVitals('clock,SpO2 [%]\n09:10,98\n', 'vitals.csv', begin));
  const facts = accepted(buildFacts(clinicWith(), record, vitals, []));
  // As it is handed over: approved, so without the mark of a draft.
  const sheet = ownerSheet(facts, demo.content.languages.get('en') as Language, []);
  return { ...sheet, paper, draft: null };
}

/** Points, of most letters. Common practice: 10 to 12 for print; one page asks for a little less. Captions and the foot are smaller. */
const LEAST_TEXT = 9.5;

describe.runIf(['pdfinfo', 'mutool'].every(hasProgram))('the sheet of a simple case', () => {
  it.each(['Letter', 'A4'] as const)(
    'is one page, its text hardly smaller than usual, on %s',
    async (paper) => {
      const handout = simpleSheet(paper);
      const pdf = await printPdf(handout);
      expect(overFile(pdf, 'pdfinfo', 'FILE').text).toMatch(/Pages:\s+1\n/);
      const letters = new Map<number, number>();
      const { text } = overFile(pdf, 'mutool', 'draw', '-q', '-F', 'stext', 'FILE');
      for (const [, size, inside] of text.matchAll(
        /<font name="[^"]*" size="([\d.]+)">([\s\S]*?)<\/font>/g,
      )) {
        const count = inside?.match(/<char /g)?.length ?? 0;
        letters.set(Number(size), (letters.get(Number(size)) ?? 0) + count);
      }
      const [mostUsed] = [...letters].sort((a, b) => b[1] - a[1])[0] as [number, number];
      expect(mostUsed).toBeGreaterThanOrEqual(LEAST_TEXT);
    },
  );

  it('is read in the order of the handout, the left column first', async () => {
    const handout = simpleSheet('Letter');
    const pdf = await printPdf(handout);
    expect(squeezed(alongTheTree(pdf))).toBe(squeezed(spokenHandout(handout).join(' ')));
  });
});

describe.runIf(hasProgram('pdfinfo'))('the sheets of the demonstration', () => {
  const PAPERS = ['Letter', 'A4'] as const;
  /** With a code for the phone, as the clinic of the demonstration prints it. */
  const pages = (name: string, tag: string, paper: Handout['paper'], draft: boolean): number => {
    const loaded = demo.cases.find((one) => one.name === name) as (typeof demo.cases)[0];
    const { identity } = loaded.facts;
    const facts = {
      ...loaded.facts,
      identity: {
        ...identity,
        owner: { ...identity.owner, language: tag },
        clinic: { ...identity.clinic, paper },
      },
    };
    const { home } = makeCase({ ...loaded, facts }, [], demo.content, 'en', null);
    const { handout } = (home as MadeForHome).owner();
    expect(handout.code).toBeDefined();
    const pdf = printPdf(draft ? handout : { ...handout, draft: null });
    const { text } = overFile(pdf, 'pdfinfo', 'FILE');
    return Number(/Pages:\s+(\d+)/.exec(text)?.[1]);
  };
  const names = demo.cases.map(({ name }) => name);

  it.each(PAPERS)('are of one page each on %s, in English and approved', (paper) => {
    expect(names.map((name) => [name, pages(name, 'en', paper, false)])).toEqual(
      names.map((name) => [name, 1]),
    );
  });

  it.each(PAPERS)('are of two at most on %s, in Spanish and as drafts', (paper) => {
    for (const name of names) {
      expect(pages(name, 'es', paper, true), name).toBeLessThanOrEqual(2);
      expect(pages(name, 'es', paper, false), name).toBeLessThanOrEqual(2);
      expect(pages(name, 'en', paper, true), name).toBeLessThanOrEqual(2);
    }
  });

  it.each(['clover', 'juniper'])('%s is of one page in Spanish too', (name) => {
    for (const paper of PAPERS) expect(pages(name, 'es', paper, false), paper).toBe(1);
  });
});

describe.runIf(['pdfinfo', 'pdftotext', 'qpdf'].every(hasProgram))(
  'a sheet of seven medicines',
  () => {
    /** Those of the demonstration, each for a week. */
    const sevenMedicines = (tag: string, paper: Handout['paper']): Handout => {
      const { facts } = demo.cases.find(({ name }) => name === 'bramble') as (typeof demo.cases)[0];
      const all = demo.cases.flatMap((one) => one.facts.home.medicines).slice(0, 7);
      const medicines = all.map((medicine) => {
        const first = Temporal.Instant.from(medicine.doses.value[0] as string);
        const value = Array.from({ length: 14 }, (_, i) =>
          first
            .add({ hours: 12 * i })
            .toZonedDateTimeISO('-05:00')
            .toString({ smallestUnit: 'minute', timeZoneName: 'never' }),
        );
        return { ...medicine, doses: { ...medicine.doses, value } };
      });
      expect(medicines).toHaveLength(7);
      const language = demo.content.languages.get(tag) as Language;
      const sheet = ownerSheet({ ...facts, home: { ...facts.home, medicines } }, language, []);
      return { ...sheet, paper };
    };

    it.each([
      ['en', 'Letter'],
      ['en', 'A4'],
      ['es', 'Letter'],
      ['es', 'A4'],
    ] as const)('has two pages, read in order and tagged, in %s on %s', (tag, paper) => {
      const handout = sevenMedicines(tag, paper);
      const pdf = printPdf(handout);
      expect(overFile(pdf, 'pdfinfo', 'FILE').text).toMatch(/Pages:\s+2\n/);
      expect(squeezed(alongTheTree(pdf))).toBe(squeezed(spokenHandout(handout).join(' ')));
      expect(failuresOf(examine(new PdfObjects(pdf)))).toEqual({});
      expect(overFile(pdf, 'pdftotext', '-l', '1', 'FILE', '-').text).toContain(
        demo.content.languages.get(tag)?.owner.text('tonight.title'),
      );
    });
  },
);

describe.runIf(hasProgram('pdftotext'))('a sheet of two pages', () => {
  it('has what the first night needs on its first page', async () => {
    // Two medicines, a syringe, three visits, two results that are awaited, and a language that takes more room.
    const { facts } = demo.cases.find(({ name }) => name === 'bramble') as (typeof demo.cases)[0];
    const language = demo.content.languages.get('es') as Language;
    const pdf = await printPdf(ownerSheet(facts, language, []));
    expect(overFile(pdf, 'pdftotext', '-f', '2', 'FILE', '-').text).toMatch(/2 ?\/ ?2/);
    const { text } = overFile(pdf, 'pdftotext', '-l', '1', 'FILE', '-');
    for (const key of ['first', 'short', 'tonight', 'medicines', 'call']) {
      expect(text).toContain(language.owner.text(`${key}.title`));
    }
    for (const number of [demo.clinic.phone, demo.clinic.emergency?.phone ?? '']) {
      expect(text.replaceAll('\u00a0', ' ')).toContain(number);
    }
  });
});
