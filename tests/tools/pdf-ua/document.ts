import { codesOf, type Mark, operationsOf, type Painted, walkContent } from './content.js';
import { fontOf, type PageFont } from './fonts.js';
import type { Dict, PdfObjects, Value } from './objects.js';
import { allNodes, type Node, numberTree, structureOf } from './structure.js';

/** A file with all that the checkpoints look at. */
export interface Examined {
  readonly pdf: PdfObjects;
  readonly pages: readonly ExaminedPage[];
  readonly nodes: readonly Node[];
  /** Fonts by their reference. */
  readonly fonts: ReadonlyMap<string, PageFont>;
  /** Codes that the text of the file shows in each font. */
  readonly shown: ReadonlyMap<string, ReadonlySet<number>>;
  readonly annotations: readonly Annotation[];
  readonly parentTree: ReadonlyMap<number, Value>;
  /** The metadata packet, where the file has one. */
  readonly xmp: string | null;
}

interface ExaminedPage {
  readonly number: number;
  readonly reference: string;
  readonly page: Dict;
  readonly painted: readonly Painted[];
  readonly opened: readonly { mark: Mark; around: readonly Mark[] }[];
}

export interface Annotation {
  readonly reference: string;
  readonly dict: Dict;
  readonly page: Dict;
  /** The node that holds it. */
  readonly node: Node | null;
}

const SHOWS_TEXT = new Set(['Tj', 'TJ', "'", '"']);

export function examine(pdf: PdfObjects): Examined {
  const nodes = allNodes(structureOf(pdf));
  const pages = pdf.pages.map(({ reference, page }, index): ExaminedPage => {
    const content = pdf.list(page['/Contents']).map((part) => pdf.stream(part) ?? Buffer.alloc(0));
    // A page with one stream names it alone.
    const whole = pdf.stream(page['/Contents']) ?? Buffer.concat(content);
    const { painted, opened } = walkContent(operationsOf(whole));
    return { number: index + 1, reference, page, painted, opened };
  });
  const fonts = new Map<string, PageFont>();
  const shown = new Map<string, Set<number>>();
  for (const { page, painted } of pages) {
    const named = pdf.dict(pdf.dict(page['/Resources'])['/Font']);
    for (const reference of Object.values(named) as string[]) {
      if (!fonts.has(reference)) fonts.set(reference, fontOf(pdf, pdf.dict(reference)));
    }
    for (const { operation, font } of painted) {
      if (!SHOWS_TEXT.has(operation.operator)) continue;
      const reference = String(named[font ?? '']);
      const codes = shown.get(reference) ?? new Set();
      for (const code of codesOf(operation)) codes.add(code);
      shown.set(reference, codes);
    }
  }
  const annotations = pages.flatMap(({ page }) =>
    pdf.list(page['/Annots']).map(
      (reference): Annotation => ({
        reference: reference as string,
        dict: pdf.dict(reference),
        page,
        node: nodes.find((node) => node.annotations.includes(reference as string)) ?? null,
      }),
    ),
  );
  return {
    pdf,
    pages,
    nodes,
    fonts,
    shown,
    annotations,
    parentTree: numberTree(pdf, pdf.dict(pdf.catalog['/StructTreeRoot'])['/ParentTree']),
    xmp: pdf.stream(pdf.catalog['/Metadata'])?.toString('utf8') ?? null,
  };
}

/** The words that a node itself shows. */
export function wordsOf({ pdf, pages, fonts }: Examined, node: Node): string {
  const own = new Set(node.content);
  return pages
    .flatMap(({ reference, page, painted }) =>
      painted
        .filter(({ marks }) => marks.some(({ mcid }) => own.has(`${reference}#${mcid}`)))
        .flatMap(({ operation, font }) => {
          const named = pdf.dict(pdf.dict(page['/Resources'])['/Font']);
          const letters = fonts.get(String(named[font ?? '']))?.toUnicode;
          return codesOf(operation).map((code) => letters?.get(code) ?? '');
        }),
    )
    .join('');
}
