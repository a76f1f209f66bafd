import { inflateSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { textWidthMm } from '../../../src/publish/pdf/page.js';
import { printPdf } from '../../../src/publish/pdf/print.js';
import type { Block, Handout } from '../../../src/words/handout.js';
import { hasProgram, overFile } from '../programs.js';
import { sampleHandout } from './sample-handout.js';

const latin1 = (bytes: Uint8Array) => Buffer.from(bytes).toString('latin1');
const mm = 72 / 25.4;

/** The drawing operators of all pages. */
function contents(pdf: Uint8Array): string {
  const text = latin1(pdf);
  return [...text.matchAll(/\/Filter \/FlateDecode\n>>\nstream\n([\s\S]*?)\nendstream/g)]
    .map(([, stream]) => {
      try {
        return inflateSync(Buffer.from(stream ?? '', 'latin1')).toString('latin1');
      } catch {
        return '';
      }
    })
    .filter((stream) => / BDC/.test(stream))
    .join('\n');
}

const paragraph = (text: string): Block => ({
  kind: 'paragraph',
  said: { runs: [{ text }], facts: [] },
});
const short = (blocks: readonly Block[], change: Partial<Handout> = {}) =>
  printPdf(sampleHandout({ blocks, draft: null, ...change }));
const figure = (width: number, height: number): Block => ({
  kind: 'figure',
  name: 'ruler',
  figure: {
    kind: 'drawing',
    drawing: {
      width,
      height,
      marks: [
        {
          kind: 'line',
          points: [
            [10, 5],
            [110, 5],
          ],
          stroke: { colour: '#123456', width: 0.5 },
        },
      ],
    },
  },
  caption: { runs: [{ text: 'A ruler' }], facts: [] },
  alternative: 'A line of 100 mm',
});

let sample: Uint8Array;
beforeAll(async () => {
  sample = await printPdf(sampleHandout());
});

describe('the print of a handout', () => {
  it.each([
    ['A4', 210, 297],
    ['Letter', 215.9, 279.4],
  ] as const)('is %s paper, %f x %f mm', async (paper, width, height) => {
    const pdf = latin1(await short([paragraph('Hello.')], { paper }));
    const [, w, h] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf) ?? [];
    expect(Number(w) / mm).toBeCloseTo(width, 4);
    expect(Number(h) / mm).toBeCloseTo(height, 4);
  });

  it('gives the same bytes for the same handout', async () => {
    expect(Buffer.compare(await printPdf(sampleHandout()), sample)).toBe(0);
  });

  it('is PDF 1.7, tagged, in its language, and shows its title', () => {
    const pdf = latin1(sample);
    expect(pdf.startsWith('%PDF-1.7')).toBe(true);
    expect(pdf).toMatch(/\/Marked true/);
    expect(pdf).toMatch(/\/Lang \(en\)/);
    expect(pdf).toMatch(/\/DisplayDocTitle true/);
    for (const type of [
      'H1',
      'H2',
      'H3',
      'P',
      'L',
      'LI',
      'Table',
      'TR',
      'TH',
      'TD',
      'Figure',
      'Link',
    ]) {
      expect(pdf).toMatch(new RegExp(`/S /${type}\\b`));
    }
    expect(pdf).toContain('/Alt (Ten seconds of an electrocardiogram with 12 counted beats.)');
  });

  it('dates its metadata by the record alone', async () => {
    expect(latin1(sample)).toContain('(D:20310304000000Z)');
    expect(latin1(sample)).not.toContain('ModDate');
    const undated = latin1(await short([paragraph('Hello.')], { dated: null, sender: [] }));
    expect(undated).not.toMatch(/CreationDate|CreateDate|ModDate|D:\d{4}/);
    expect(undated).not.toMatch(/\/Author|dc:creator|Harebell/);
  });

  it('keeps the metadata packet well-formed whatever the title is', async () => {
    const pdf = latin1(await short([paragraph('Hello.')], { title: 'Cut & sew, 1 < 2' }));
    expect(pdf).toContain('>Cut &amp; sew, 1 &lt; 2</rdf:li>');
  });

  it('draws 100 mm as 100 mm, in the pen of 0.5 mm', async () => {
    const drawn = contents(await short([figure(120, 10)]));
    const line =
      /([\d.]+) 0 0 ([\d.]+) [\d.]+ [\d.]+ cm\n[^lm]*?([\d.]+) w\n[^lm]*\n([\d.]+) ([\d.]+) m\n([\d.]+) ([\d.]+) l\nS/;
    const [, across, down, pen, x1, y1, x2, y2] =
      line.exec(drawn.slice(drawn.indexOf('/Figure'))) ?? [];
    expect(across).toBe(down);
    const millimetres = (length: number) => (length * Number(across)) / mm;
    expect(millimetres(Number(x2) - Number(x1))).toBeCloseTo(100, 3);
    expect(y1).toBe(y2);
    expect(millimetres(Number(pen))).toBeCloseTo(0.5, 4);
  });

  it('puts nothing but path operators inside a path', () => {
    const path = /^(?:[\d.-]+ )+(?:m|re)$/;
    const inside = /^(?:[\d.-]+ )*(?:m|l|c|re|h)$/;
    let open = false;
    let paths = 0;
    for (const line of contents(sample).split('\n')) {
      if (path.test(line)) open = true;
      else if (open && !inside.test(line)) {
        expect(line).toMatch(/^(?:S|s|f|f\*|B|B\*|n|W|W n)$/);
        open = false;
        paths += 1;
      }
    }
    expect(paths).toBeGreaterThan(100);
  });

  it('refuses a figure that is wider than the text rather than shrink it', () => {
    expect(() => short([figure(textWidthMm('A4') + 0.1, 10)])).toThrow('figure ruler');
    expect(short([figure(textWidthMm('A4'), 10)])).toBeInstanceOf(Uint8Array);
  });

  it('stops at a character that the face lacks', () => {
    expect(() => short([paragraph('Give 1 ☐ today')])).toThrow(/"☐" \(U\+2610\)/);
  });
});

describe.runIf(hasProgram('qpdf'))('read by qpdf', () => {
  it('has no errors or warnings', () => {
    const { status, text } = overFile(sample, 'qpdf', '--check', 'FILE');
    expect(text).toContain('No syntax or stream encoding errors found');
    expect(status).toBe(0);
  });
});

describe.runIf(hasProgram('pdftotext'))('read back by pdftotext', () => {
  const pagesOf = (pdf: Uint8Array) =>
    overFile(pdf, 'pdftotext', 'FILE', '-').text.split('\f').slice(0, -1);

  it('says its blocks in reading order', () => {
    const text = pagesOf(sample).join('\n');
    const order = [
      'Harebell Lane Veterinary Surgery',
      'Looking after Juniper at home',
      'The one thing to remember',
      'What we did',
      'must be taken out',
      'Stitches out',
      'Tick a box for each dose',
      'Meloxicam 1.5 mg/mL, liquid',
      'Gabapentin',
      'Call us straight away',
      'Each day at home',
      'Keep the collar on',
      'A bare patch',
      'About the dates',
      'How Juniper slept',
      '1 ≤ 2',
      '5 μg, 38 °C, −0.2 mV, 3 × 10',
      'lead loose',
      'Each small triangle is a beat',
      'The whole anesthetic.',
    ];
    const places = order.map((words) => text.replace(/\s+/g, ' ').indexOf(words));
    expect(places.every((at) => at >= 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it('carries the draft mark, the foot and the page number on every page', () => {
    const pages = pagesOf(sample);
    expect(pages.length).toBeGreaterThan(1);
    pages.forEach((page, i) => {
      expect(page).toContain('DRAFT – not yet checked by a veterinarian');
      expect(page).toContain('Questions? Call us first: 01632 960 112');
      expect(page).toMatch(new RegExp(`\\b${i + 1} ?/ ?${pages.length}\\b`));
    });
  });

  it('gives a long draft mark a second line', async () => {
    const draft = `Draft. ${'A veterinarian must check this sheet before it is handed out. '.repeat(2)}`;
    const pages = pagesOf(await short([paragraph('Hello.')], { draft }));
    expect(pages.join(' ').replace(/\s+/g, ' ')).toContain(draft.trim());
  });

  it('repeats the column titles over each page of a table', async () => {
    const cells = (n: number) => ({
      kind: 'said' as const,
      said: [{ runs: [{ text: `row ${n}` }], facts: [] }],
    });
    const table: Block = {
      kind: 'table',
      caption: 'A long table',
      columns: [{ title: 'Minutes', align: 'end', share: 1 }],
      rows: Array.from({ length: 90 }, (_, i) => [cells(i)]),
    };
    const pages = pagesOf(await short([table]));
    expect(pages.length).toBeGreaterThan(1);
    for (const page of pages) expect(page).toContain('Minutes');
    expect(pages.filter((page) => page.includes('A long table'))).toHaveLength(1);
    const rows = [...pages.join(' ').matchAll(/row (\d+)/g)].map(([, n]) => Number(n));
    expect(rows).toEqual(Array.from({ length: 90 }, (_, i) => i));
  });

  it('sets the days of many boxes in whole words, in rows', async () => {
    const days = Array.from({ length: 14 }, (_, i) => ({
      day: `Thu Mar ${i + 10}`,
      boxes: ['morning', 'evening'],
    }));
    const table: Block = {
      kind: 'table',
      caption: 'Doses',
      columns: [
        { title: 'Medicine', align: 'start', share: 2 },
        { title: 'Tick', align: 'start', share: 1 },
      ],
      rows: [
        [
          { kind: 'said', said: [] },
          { kind: 'ticks', days },
        ],
      ],
    };
    const text = pagesOf(await short([table])).join(' ');
    expect(text.match(/morning/g)).toHaveLength(14);
    expect(text.match(/evening/g)).toHaveLength(14);
    for (const { day } of days) expect(text).toContain(day.split(' ')[2]);
  });

  it('never parts a number from the word after it', async () => {
    const blocks = Array.from({ length: 60 }, (_, i) =>
      paragraph(`${'m'.repeat(1 + (i % 30))} ${'of '.repeat(12 + i / 3)}give 12.5 mg twice`),
    );
    const text = pagesOf(await short(blocks)).join('\n');
    expect(text.match(/12\.5 mg/g)).toHaveLength(60);
  });

  it('starts a page block on a new page', async () => {
    const page: Block = { kind: 'page', blocks: [paragraph('Second page.')] };
    const pages = pagesOf(await short([paragraph('First page.'), page]));
    expect(pages).toHaveLength(2);
    expect(pages[1]).toContain('Second page.');
    expect(pagesOf(await short([page]))).toHaveLength(1);
  });
});

describe.runIf(hasProgram('pdffonts'))('read by pdffonts', () => {
  it('embeds our faces alone, each with a Unicode map', () => {
    const rows = overFile(sample, 'pdffonts', 'FILE').text.trim().split('\n').slice(2);
    expect(rows.length).toBeGreaterThan(2);
    for (const row of rows) {
      expect(row).toMatch(/^[A-Z]{6}\+AtkinsonHyperlegible(Next|Mono)-\w+ /);
      expect(row).toMatch(/ yes yes yes +\d+ +\d+ *$/);
    }
  });
});
