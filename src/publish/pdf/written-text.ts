import type { Face } from '../fonts.js';
import { colourOperands } from './colour.js';
import { TABULAR } from './typefaces.js';

/** How a text is written; size and place in points, the place on the letters' own line. */
interface Lettering {
  readonly face: Face;
  readonly size: number;
  readonly colour: string;
  readonly tabular: boolean;
  readonly x: number;
  readonly y: number;
}

/** Thousandths of the size. */
interface Position {
  readonly xAdvance: number;
  /** What the glyph itself advances; kerning is the difference. */
  readonly advanceWidth: number;
  readonly xOffset: number;
  readonly yOffset: number;
}

/** What this asks of pdfkit's inside: the font in use, its glyphs' codes in this file, and the fonts that a page names. */
interface Inside {
  readonly _font: {
    readonly id: string;
    encode(text: string, features?: readonly string[]): [codes: string[], positions: Position[]];
    ref(): unknown;
  };
  readonly page: { readonly fonts: Record<string, unknown> };
}

/**
 * Writes a text that has been measured, as one line. pdfkit's own call measures it twice more and wraps it in a state of
 * its own; it is left to it where an accent is set apart from its letter.
 */
export function writeText(doc: PDFKit.PDFDocument, text: string, how: Lettering): void {
  const { size, x, y } = how;
  const features = how.tabular ? TABULAR : undefined;
  doc.font(how.face);
  const { _font: font, page } = doc as unknown as Inside;
  const [codes, positions] = font.encode(text, features);
  if (positions.some(({ xOffset, yOffset }) => xOffset !== 0 || yOffset !== 0)) {
    const options = { lineBreak: false, baseline: 'alphabetic' as const };
    doc.fontSize(size).fillColor(how.colour);
    doc.text(text, x, y, features ? { ...options, features } : options);
    return;
  }
  page.fonts[font.id] ??= font.ref();
  // A page is measured from its top here, so that letters stand on their heads unless turned over.
  doc.addContent(
    `BT\n${colourOperands(how.colour)} rg\n1 0 0 -1 ${short(x)} ${short(y)} Tm\n/${font.id} ${short(size)} Tf\n[${shown(codes, positions)}] TJ\nET`,
  );
}

/** Codes of two bytes in hexadecimal, with what kerning takes away between them. */
function shown(codes: readonly string[], positions: readonly Position[]): string {
  let line = '<';
  for (let i = 0; i < codes.length; i++) {
    const { xAdvance, advanceWidth } = positions[i] as Position;
    line += codes[i];
    if (xAdvance !== advanceWidth && i < codes.length - 1) {
      line += `> ${short(advanceWidth - xAdvance)} <`;
    }
  }
  return `${line}>`;
}

/** To as many digits as pdfkit writes, so that each letter stays on its dot. */
const short = (value: number): number => Math.round(value * 1e6) / 1e6;
