/// <reference path="./fontkit.d.ts" />
import { type Font, type GlyphRun, openSync } from 'fontkit';
import { demandGlyphs, type Face, faces } from '../fonts.js';

/** The font option that figures of one width ask for; `kern` is said too, since a list replaces what is usual. */
export const TABULAR: PDFKit.Mixins.OpenTypeFeatures[] = ['tnum', 'kern'];

/** Lets a document know every face by its name, opened once for all documents: a face is read in some 5 ms, and shaped in far more. */
export function registerFaces(doc: PDFKit.PDFDocument): void {
  // pdfkit takes a font of fontkit for a source, of which its types do not tell.
  for (const face of FACES) doc.registerFont(face, typeface(face) as unknown as string);
}

const FACES = Object.keys(faces) as Face[];

/**
 * How wide a text is, in thousandths of its size. Words are shaped one by one, each with the space after it, as pdfkit
 * sets them; a text with figures of one width is shaped as a whole.
 */
export function advanceOf(face: Face, text: string, tabular: boolean): number {
  const kept = (tabular ? tabularAdvances : advances)[face];
  const before = kept.get(text);
  if (before !== undefined) return before;
  demandGlyphs(face, text);
  const font = typeface(face);
  const advance = tabular
    ? font.layout(text, TABULAR).advanceWidth
    : (text.match(/[^ \t]*[ \t]|[^ \t]+/g) ?? []).reduce(
        (sum, word) => sum + font.layout(word).advanceWidth,
        0,
      );
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(text, advance);
  return advance;
}

/** Something for each face. */
const each = <T>(make: (face: Face) => T): Record<Face, T> =>
  Object.fromEntries(FACES.map((face) => [face, make(face)])) as Record<Face, T>;

/** Texts of one face whose widths are kept before all are let go. Not a clinical number. */
const MOST_KEPT = 20_000;
/** The same of layouts, which are a thousand times as large. Not a clinical number. */
const MOST_LAYOUTS = 4_000;

const advances = each(() => new Map<string, number>());
const tabularAdvances = each(() => new Map<string, number>());
const opened = new Map<Face, Font>();

function typeface(face: Face): Font {
  const before = opened.get(face);
  if (before) return before;
  const font = shareable(face);
  opened.set(face, font);
  return font;
}

/**
 * A face that documents share without one being seen in the bytes of another. fontkit keeps each glyph with the characters
 * that it first stood for: here those of the face's own table, before any text asks. What is cut out for a file is taken
 * from a second copy, as cutting asks for glyphs that stand for no character.
 */
function shareable(face: Face): Font {
  const font = openSync(faces[face]);
  if (font.unitsPerEm !== 1000) {
    // pdfkit brings a layout to thousandths in place, which only then leaves it as it is.
    throw new Error(`the ${face} face counts in ${font.unitsPerEm} units`);
  }
  for (const codePoint of font.characterSet) font.glyphForCodePoint(codePoint);
  const uncut = openSync(faces[face]);
  const shape = font.layout.bind(font);
  const known = new Map<string, GlyphRun>();
  font.layout = (text, features) => {
    const key = features ? `${features.join()}\n${text}` : text;
    const before = known.get(key);
    if (before) return before;
    const run = shape(text, features);
    if (known.size >= MOST_LAYOUTS) known.clear();
    known.set(key, run);
    return run;
  };
  font.createSubset = () => uncut.createSubset();
  return font;
}
