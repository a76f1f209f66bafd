import { beforeAll, describe, expect, it } from 'vitest';
import { inks } from '../../../src/draw/inks.js';
import { printPdf } from '../../../src/publish/pdf/print.js';
import type { PrintedDocument } from '../../../src/publish/print-case.js';
import type { Handout } from '../../../src/words/handout.js';
import { contrast } from '../../tools/contrast.js';
import { BREAKS } from '../../tools/pdf-ua/broken.js';
import { CHECKPOINTS, failuresOf } from '../../tools/pdf-ua/checkpoints.js';
import { type Examined, examine, wordsOf } from '../../tools/pdf-ua/document.js';
import { PdfObjects, textOf } from '../../tools/pdf-ua/objects.js';
import { alongTheTree, textAlone } from '../../tools/pdf-ua/reading-order.js';
import { attributeOf } from '../../tools/pdf-ua/structure.js';
import { spokenHandout, spokenPictures, squeezed } from '../../tools/spoken-handout.js';
import { demoPrints } from '../demo-prints.js';
import { hasProgram, overFile } from '../programs.js';
import { sampleHandout } from './sample-handout.js';

type Examinee = Omit<PrintedDocument, 'labels' | 'live'>;

const documents = new Map<string, Examinee>();
const files = new Map<string, Examined>();
let sample: Uint8Array;

interface Print {
  readonly name: string;
  readonly handout: Handout;
  readonly pdf: Uint8Array;
}

const PAPERS = { A4: [595.28, 841.89], Letter: [612, 792] } as const;
const prints: Print[] = [];

const SAMPLE = 'the sample of every block';

beforeAll(async () => {
  for (const document of await demoPrints()) documents.set(document.address, document);
  const handout = sampleHandout();
  sample = await printPdf(handout);
  documents.set(SAMPLE, { address: 'sample', handout, pdf: sample });

  const demo = [...documents.values()].filter(({ handout }) => handout.reader === 'owner');
  for (const { address, handout } of demo) {
    for (const paper of ['A4', 'Letter'] as const) {
      for (const largeType of [false, true]) {
        // The sample's drawing fills the width already; those of a sheet stand beside something and grow.
        const blocks = handout.blocks.filter(({ kind }) => kind !== 'figure' && kind !== 'page');
        const one = { ...handout, paper, blocks, ...(largeType && { largeType: true as const }) };
        const name = `${address}, ${paper}, ${largeType ? 'large type' : 'usual type'}`;
        prints.push({ name, handout: one, pdf: await printPdf(one) });
      }
    }
  }
  if (!hasProgram('qpdf')) return;
  for (const [name, { pdf }] of documents) files.set(name, examine(new PdfObjects(pdf)));
}, 120_000);

/** Calls a check for each document; names the document in what fails. */
function forEach(check: (document: Examinee, name: string) => void): void {
  // Owner’s sheets, teaching pages, their answers and records of six cases, less what was not consented to, and the sample.
  expect(documents.size).toBe(24);
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
      expect(told, name).toEqual(spokenPictures(handout));
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

describe.runIf(hasProgram('qpdf'))('in black and white', () => {
  it('every letter of every print stands out from paper and tint by 4.5 : 1 (WCAG 1.4.3)', () => {
    forEach((_, name) => {
      const colours = new Set(
        fileOf(name)
          .pages.flatMap(({ painted }) => painted)
          .filter(({ operation }) => /^T[jJ]$/.test(operation.operator))
          .map(({ fill }) => fill),
      );
      expect(colours.size, name).toBeGreaterThan(1);
      for (const colour of colours) {
        // White letters have one place: the black bar of an urgent phase in the chart.
        const grounds = colour === inks.paper ? [inks.ink] : [inks.paper, inks.tint];
        for (const ground of grounds) {
          expect(contrast(colour, ground), `${name}: ${colour}`).toBeGreaterThanOrEqual(4.5);
        }
      }
    });
  });

  it('a link is told by the line under it', () => {
    let links = 0;
    forEach((_, name) => {
      const { nodes, pages } = fileOf(name);
      for (const key of nodes
        .filter(({ type }) => type === '/Link')
        .flatMap(({ content }) => content)) {
        const [reference, id] = key.split('#');
        const drawn = pages
          .filter((page) => page.reference === reference)
          .flatMap(({ painted }) => painted)
          .filter(({ marks }) => marks.some(({ mcid }) => mcid === Number(id)));
        expect(
          drawn.map(({ operation }) => operation.operator),
          name,
        ).toContain('S');
        links += 1;
      }
    });
    expect(links).toBeGreaterThan(5);
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

describe.runIf(['qpdf', 'pdfinfo', 'pdftotext'].every(hasProgram))('the reading order', () => {
  it('along the structure, read by poppler, is that of the handout, word for word', () => {
    forEach(({ pdf, handout }, name) => {
      const spoken = squeezed(spokenHandout(handout).join(' '));
      expect(squeezed(alongTheTree(pdf)), name).toBe(spoken);
    });
    // Two dozen documents are taken apart in one test, on a machine that may be busy.
  }, 240_000);

  it('along the pages, read by pdftotext, is the same, and artifacts hold nothing else', () => {
    forEach(({ pdf, handout }, name) => {
      const { text } = overFile(textAlone(pdf), 'pdftotext', '-raw', 'FILE', '-');
      const spoken = squeezed(spokenHandout(handout).join(' '));
      expect(squeezed(text), name).toBe(spoken);
    });
  });
});

const large = () => prints.filter(({ handout }) => handout.largeType);

describe.runIf(hasProgram('pdftotext'))('an owner’s sheet on A4 and on Letter', () => {
  it('keeps every word within the page and its margins', () => {
    expect(prints).toHaveLength(28);
    for (const { name, handout, pdf } of prints) {
      const [width, height] = PAPERS[handout.paper];
      // An owner's sheet reaches further out where that makes one page of two; most printers leave 6.4 mm (common practice).
      const side = (handout.reader === 'owner' && !handout.largeType ? 8.5 : 12) * (72 / 25.4);
      const edge = (handout.reader === 'owner' && !handout.largeType ? 6.4 : 8) * (72 / 25.4);
      const { text } = overFile(pdf, 'pdftotext', '-bbox', 'FILE', '-');
      const pages = [...text.matchAll(/<page width="([\d.]+)" height="([\d.]+)"/g)];
      expect(pages.length).toBeGreaterThan(0);
      for (const [, w, h] of pages) {
        expect([Number(w), Number(h)], name).toEqual([
          expect.closeTo(width, 1),
          expect.closeTo(height, 1),
        ]);
      }
      const words = [
        ...text.matchAll(
          /<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</g,
        ),
      ];
      expect(words.length).toBeGreaterThan(100);
      const outside = words.filter(
        ([, left, top, right, bottom]) =>
          Number(left) < side ||
          Number(right) > width - side ||
          Number(top) < edge ||
          Number(bottom) > height - edge,
      );
      expect(
        outside.map(([, , , , , word]) => word),
        name,
      ).toEqual([]);
    }
  });

  it('never prints one word over another', () => {
    for (const { name, pdf } of prints) {
      const { text } = overFile(pdf, 'pdftotext', '-bbox', 'FILE', '-');
      for (const page of text.split('<page ').slice(1)) {
        const boxes = [
          ...page.matchAll(
            /xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</g,
          ),
        ].map(([, ...numbers]) => [...numbers.slice(0, 4).map(Number), numbers[4]] as Box);
        expect(overlaps(boxes), name).toEqual([]);
      }
    }
  });
});

type Box = [left: number, top: number, right: number, bottom: number, word: string];

/** Pairs of words of which each covers a good part of the other; lines may come close to each other, words must not. */
function overlaps(boxes: readonly Box[]): string[] {
  return boxes.flatMap(([left, top, right, bottom, word], i) =>
    boxes
      .slice(i + 1)
      .filter(
        ([l, t, r, b]) =>
          Math.min(right, r) - Math.max(left, l) > 1 &&
          Math.min(bottom, b) - Math.max(top, t) > 0.5 * Math.min(bottom - top, b - t),
      )
      .map((other) => `${word} and ${other[4]}`),
  );
}

describe.runIf(hasProgram('mutool'))('large type', () => {
  it('has no letter below 18 points, and headings above the text, as mutool measures them', () => {
    expect(large()).toHaveLength(14);
    for (const { name, pdf } of large()) {
      const sizes = sizesIn(pdf);
      expect(Math.min(...sizes), name).toBeGreaterThanOrEqual(18);
      expect(sizes.has(22) && sizes.has(28), name).toBe(true);
    }
    const usual = prints.find(({ handout }) => !handout.largeType) as Print;
    expect(Math.min(...sizesIn(usual.pdf))).toBeLessThan(12);
  });
});

/** Sizes of the letters of a file, in points. */
const sizesIn = (pdf: Uint8Array): Set<number> =>
  new Set(
    [
      ...overFile(pdf, 'mutool', 'draw', '-q', '-F', 'stext', 'FILE').text.matchAll(
        /<font name="[^"]*" size="([\d.]+)"/g,
      ),
    ].map(([, size]) => Number(size)),
  );

describe.runIf(['qpdf', 'pdfinfo'].every(hasProgram))('large type, for those who hear it', () => {
  it('passes the same checkpoints and is read in the same order', () => {
    for (const { name, handout, pdf } of large()) {
      expect(failuresOf(examine(new PdfObjects(pdf))), name).toEqual({});
      expect(squeezed(alongTheTree(pdf)), name).toBe(squeezed(spokenHandout(handout).join(' ')));
    }
  });
});

describe('a course of many doses in large type', () => {
  it.each([
    ['hourly', 4, 24],
    ['daily', 42, 1],
  ])('is parted by pages where it must be (%s)', async (_, days, boxes) => {
    const said = (text: string) => ({ runs: [{ text }], facts: [] });
    const calendar = Array.from({ length: days }, (_, day) => ({
      day: `Tue, Mar ${day + 1}`,
      boxes: Array.from({ length: boxes }, (_, i) => `${i}:00`),
    }));
    const handout = sampleHandout({
      largeType: true,
      blocks: [
        {
          kind: 'table',
          caption: 'Doses',
          columns: [
            { title: 'Medicine', align: 'start', share: 45 },
            { title: 'Tick', align: 'start', share: 55 },
          ],
          rows: [
            [
              { kind: 'said', said: [said('carprofen'), said('with food '.repeat(200))] },
              { kind: 'ticks', days: calendar },
            ],
          ],
        },
      ],
    });
    const pdf = await printPdf(handout);
    const objects = new PdfObjects(pdf);
    expect(objects.pages.length).toBeGreaterThan(2);
    expect(failuresOf(examine(objects))).toEqual({});
  });
});
