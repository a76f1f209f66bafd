import type { Press } from './press.js';

/**
 * A node of the document's structure, made when it is first written into. Blocks are set before they are printed,
 * and nodes must join their parent in printing order, which is the reading order.
 */
export type Tag = () => PDFKit.PDFStructureElement;

interface TagOptions {
  readonly alt?: string;
  /** Left, top, right, bottom in points. */
  readonly bbox?: readonly [number, number, number, number];
  readonly scope?: 'Column' | 'Row';
  /** A list whose items are counted `1.`, `2.` */
  readonly numbering?: 'Decimal';
  /** What a table holds, where no caption says it. */
  readonly summary?: string;
}

export function tag(press: Press, parent: Tag, type: string, options: TagOptions = {}): Tag {
  let element: PDFKit.PDFStructureElement | null = null;
  return () => {
    if (!element) {
      // A figure's box is turned over by the height of the page at hand, so it is made here and not earlier.
      element = press.doc.struct(type, options as { alt?: string });
      const attributes = ownAttributes(options);
      if (attributes) (element as unknown as WithDictionary).dictionary.data.A = attributes;
      parent().add(element);
    }
    return element;
  };
}

/** A structure node's dictionary, of which pdfkit's types do not tell. */
interface WithDictionary {
  readonly dictionary: { readonly data: { A?: object } };
}

/** Attributes that pdfkit has no option for (ISO 32000-1, 14.8.5.5 and 14.8.5.7). */
function ownAttributes({ numbering, summary }: TagOptions): object | null {
  if (numbering) return { O: 'List', ListNumbering: numbering };
  // pdfkit writes a string primitive as a name; only a String object becomes text.
  if (summary) return { O: 'Table', Summary: Object(summary) };
  return null;
}

export function rootTag(press: Press): Tag {
  const element = press.doc.struct('Document');
  press.doc.addStructure(element);
  return () => element;
}

/** Writes as the content of a structure node. */
export function within(press: Press, parent: Tag, type: string, write: () => void): void {
  const element = parent();
  element.add(press.doc.markStructureContent(type));
  write();
  press.doc.endMarkedContent();
}

/** Writes what is no part of the text: rules, frames, running heads, repeats. */
export function aside(
  press: Press,
  write: () => void,
  type: 'Layout' | 'Pagination' = 'Layout',
): void {
  press.doc.markContent('Artifact', { type });
  write();
  press.doc.endMarkedContent();
}
