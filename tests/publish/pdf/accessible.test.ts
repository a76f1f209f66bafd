import { beforeAll, describe, expect, it } from 'vitest';
import { printPdf } from '../../../src/publish/pdf/print.js';
import type { PrintedDocument } from '../../../src/publish/print-case.js';
import type { Block } from '../../../src/words/handout.js';
import { BREAKS } from '../../tools/pdf-ua/broken.js';
import { CHECKPOINTS, failuresOf } from '../../tools/pdf-ua/checkpoints.js';
import { type Examined, examine, wordsOf } from '../../tools/pdf-ua/document.js';
import { PdfObjects, textOf } from '../../tools/pdf-ua/objects.js';
import { attributeOf } from '../../tools/pdf-ua/structure.js';
import { spokenHandout, spokenPictures } from '../../tools/spoken-handout.js';
import { demoPrints } from '../demo-prints.js';
import { hasProgram, overFile } from '../programs.js';
import { sampleHandout } from './sample-handout.js';

const documents = new Map<string, PrintedDocument>();
const files = new Map<string, Examined>();
let sample: Uint8Array;

const SAMPLE = 'the sample of every block';

beforeAll(async () => {
  for (const document of await demoPrints()) documents.set(document.address, document);
  // Without its picture, which weighs more than all the rest.
  const handout = sampleHandout({ blocks: sampleHandout().blocks.filter(isNoPicture) });
  sample = await printPdf(handout);
  documents.set(SAMPLE, { address: '', handout, pdf: sample });
  if (!hasProgram('qpdf')) return;
  for (const [name, { pdf }] of documents) files.set(name, examine(new PdfObjects(pdf)));
}, 60_000);

const isNoPicture = (block: Block) => block.kind !== 'figure' || block.figure.kind !== 'image';

/** Calls a check for each document; names the document in what fails. */
function forEach(check: (document: PrintedDocument, name: string) => void): void {
  // Owner's sheets, teaching pages and records of six cases, less what was not consented to, and the sample.
  expect(documents.size).toBe(18);
  for (const [name, document] of documents) check(document, name);
}

const fileOf = (name: string) => files.get(name) as Examined;

describe.runIf(hasProgram('qpdf'))('every printed document, taken apart by qpdf', () => {
  it(`passes the ${CHECKPOINTS.length} conditions of the Matterhorn Protocol that a program can decide here`, () => {
    expect(new Set(CHECKPOINTS.map(({ id }) => id)).size).toBe(CHECKPOINTS.length);
    forEach((_, name) => expect(failuresOf(fileOf(name)), name).toEqual({}));
  });

  it('is a sound file with the title of its handout', () => {
    forEach(({ pdf, handout }, name) => {
      const { status, text } = overFile(pdf, 'qpdf', '--check', 'FILE');
      expect(status, `${name}: ${text}`).toBe(0);
      const { pdf: objects } = fileOf(name);
      const info = objects.dict(objects.trailer['/Info']);
      expect(textOf(objects.get(info['/Title']))).toBe(handout.title);
      expect(textOf(objects.get(objects.catalog['/Lang']))).toBe(handout.language);
    });
  });

  it('tells each picture in the words of its handout, in their order', () => {
    forEach(({ handout }, name) => {
      const told = fileOf(name)
        .nodes.filter(({ type }) => type === '/Figure')
        .map(({ dict }) => textOf(dict['/Alt']));
      expect(told, name).toEqual(spokenPictures(handout.blocks));
    });
  });

  it('says that an ordered list is counted, and no other', () => {
    const numbering = (type: 'ordered' | 'other') => {
      const file = fileOf(SAMPLE);
      return file.nodes
        .filter((node) => node.type === '/L')
        .filter(({ kids }) => {
          const label = kids[0]?.kids.find((part) => part.type === '/Lbl');
          return (label !== undefined && wordsOf(file, label) === '1.') === (type === 'ordered');
        })
        .map((node) => attributeOf(file.pdf, node, '/ListNumbering'));
    };
    expect(numbering('ordered')).toEqual(['/Decimal']);
    expect(new Set(numbering('other'))).toEqual(new Set([null]));
  });
});

describe.runIf(hasProgram('qpdf'))('a file broken at one checkpoint', () => {
  it('is known for every checkpoint', () => {
    expect(Object.keys(BREAKS).sort()).toEqual(CHECKPOINTS.map(({ id }) => id).sort());
  });

  it.each(CHECKPOINTS)('fails $id ($asks)', ({ id }) => {
    const pdf = new PdfObjects(sample);
    BREAKS[id]?.(pdf);
    // A program that writes a lock would have to lock; such a file is judged before it is written.
    const broken = id.startsWith('26-') ? pdf : new PdfObjects(pdf.save());
    expect(Object.keys(failuresOf(examine(broken)))).toContain(id);
  });
});

const squeezed = (text: string) => text.replace(/[\s\u00a0]+/g, '');

/** What poppler reads along the structure tree, pictures left out. */
function alongTheTree(pdf: Uint8Array): string {
  const { text } = overFile(pdf, 'pdfinfo', '-struct-text', 'FILE');
  let skipFrom = Number.POSITIVE_INFINITY;
  const said: string[] = [];
  for (const line of text.split('\n')) {
    const depth = line.search(/\S/);
    if (depth <= skipFrom) skipFrom = Number.POSITIVE_INFINITY;
    if (depth < skipFrom && /^\s*Figure\b/.test(line)) skipFrom = depth;
    const [, words] = /^\s+"(.*)"$/.exec(line) ?? [];
    if (words !== undefined && depth < skipFrom) said.push(words);
  }
  return said.join(' ');
}

/** The file without its artifacts and pictures. */
function textAlone(pdf: Uint8Array): Uint8Array {
  const objects = new PdfObjects(pdf);
  for (const { page } of objects.pages) {
    const content = objects.stream(page['/Contents'])?.toString('latin1') ?? '';
    const less = content.replace(/\/(?:Artifact|Figure) <<[\s\S]*?>> BDC\n[\s\S]*?\nEMC/g, '');
    objects.setStream(page['/Contents'], Buffer.from(less, 'latin1'));
  }
  return objects.save();
}

describe.runIf(['qpdf', 'pdfinfo', 'pdftotext'].every(hasProgram))('the reading order', () => {
  it('along the structure, read by poppler, is that of the handout, word for word', () => {
    forEach(({ pdf, handout }, name) => {
      const spoken = squeezed(spokenHandout(handout).join(' '));
      expect(squeezed(alongTheTree(pdf)), name).toBe(spoken);
    });
  });

  it('along the pages, read by pdftotext, is the same, and artifacts hold nothing else', () => {
    forEach(({ pdf, handout }, name) => {
      const { text } = overFile(textAlone(pdf), 'pdftotext', '-raw', 'FILE', '-');
      const spoken = squeezed(spokenHandout(handout).join(' '));
      expect(squeezed(text), name).toBe(spoken);
    });
  });
});
