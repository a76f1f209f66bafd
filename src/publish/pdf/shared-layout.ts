/** What this asks of pdfkit's inside: the face in use lays out a run of letters. */
interface Inside {
  _font: {
    name: string;
    layoutRun?: (text: string, features?: readonly string[]) => unknown;
  };
}

/** Runs laid out so far in this process, by face, features and text: shaping letters costs more than all else of a print. */
const known = new Map<string, unknown>();

/** Not a clinical number: runs that are kept before all are let go, some 20 MB. */
const MOST_KEPT = 20_000;

/**
 * Lets a document take the layout of letters from documents before it. Faces are the same in all, and a layout depends on
 * nothing else, so the bytes stay the same. A pdfkit that has no such inside just lays out everything itself.
 */
export function shareLayouts(doc: PDFKit.PDFDocument): void {
  const open = doc.font;
  const shared = new WeakSet<object>();
  doc.font = (...which: readonly unknown[]) => {
    Reflect.apply(open, doc, which);
    const font = (doc as unknown as Inside)._font;
    if (shared.has(font)) return doc;
    shared.add(font);
    const { name, layoutRun } = font;
    if (!layoutRun) return doc;
    font.layoutRun = (text, features) => {
      const key = `${name}\n${features?.join() ?? ''}\n${text}`;
      const before = known.get(key);
      if (before !== undefined) return before;
      const run = layoutRun.call(font, text, features);
      if (known.size >= MOST_KEPT) known.clear();
      known.set(key, run);
      return run;
    };
    return doc;
  };
}
