import { type Dict, type PdfObjects, textOf } from './objects.js';

/** A font of a page with the parts that its text depends on. */
export interface PageFont {
  readonly dict: Dict;
  readonly descendant: Dict;
  /** Character code to text. */
  readonly toUnicode: ReadonlyMap<number, string> | null;
  /** The embedded font program. */
  readonly program: TrueType | null;
  /** Width in thousandths of the size that the file states for a glyph. */
  readonly width: (cid: number) => number;
}

export function fontOf(pdf: PdfObjects, dict: Dict): PageFont {
  const descendant = pdf.dict(pdf.list(dict['/DescendantFonts'])[0]);
  const descriptor = pdf.dict(descendant['/FontDescriptor']);
  const program = pdf.stream(descriptor['/FontFile2']);
  const map = pdf.stream(dict['/ToUnicode']);
  const widths = statedWidths(pdf, descendant);
  const standard = pdf.get(descendant['/DW']);
  return {
    dict,
    descendant,
    toUnicode: map && unicodeMap(map.toString('latin1')),
    program: program && trueType(program),
    width: (cid) => widths.get(cid) ?? (typeof standard === 'number' ? standard : 1000),
  };
}

export const registryOf = (pdf: PdfObjects, font: PageFont): (string | null)[] => {
  const system = pdf.dict(font.descendant['/CIDSystemInfo']);
  return [textOf(system['/Registry']), textOf(system['/Ordering'])];
};

/** `/W` of a CID font (ISO 32000-1, 9.7.4.3). */
function statedWidths(pdf: PdfObjects, descendant: Dict): Map<number, number> {
  const widths = new Map<number, number>();
  const list = pdf.list(descendant['/W']).map((item) => pdf.get(item));
  for (let i = 0; i < list.length; ) {
    const first = list[i] as number;
    const next = list[i + 1];
    if (Array.isArray(next)) {
      next.forEach((width, k) => {
        widths.set(first + k, width as number);
      });
      i += 2;
    } else {
      for (let cid = first; cid <= (next as number); cid++) widths.set(cid, list[i + 2] as number);
      i += 3;
    }
  }
  return widths;
}

/** `bfchar` and `bfrange` of a ToUnicode map (ISO 32000-1, 9.10.3). */
function unicodeMap(text: string): Map<number, string> {
  const map = new Map<number, string>();
  const utf16 = (hex: string) => Buffer.from(hex, 'hex').swap16().toString('utf16le');
  for (const [, body = ''] of text.matchAll(/beginbfchar([\s\S]*?)endbfchar/g)) {
    for (const [, code = '', to = ''] of body.matchAll(/<([^>]+)>\s*<([^>]*)>/g)) {
      map.set(Number.parseInt(code, 16), utf16(to.replace(/\s/g, '')));
    }
  }
  for (const [, body = ''] of text.matchAll(/beginbfrange([\s\S]*?)endbfrange/g)) {
    for (const [, from = '', to = '', list, single] of body.matchAll(
      /<([^>]+)>\s*<([^>]+)>\s*(?:\[([^\]]*)\]|<([^>]*)>)/g,
    )) {
      const first = Number.parseInt(from, 16);
      const items = list?.match(/<[^>]*>/g)?.map((item) => item.replace(/[<>\s]/g, ''));
      for (let code = first; code <= Number.parseInt(to, 16); code++) {
        const hex = items
          ? items[code - first]
          : (Number.parseInt(single ?? '', 16) + code - first)
              .toString(16)
              .padStart(single?.length ?? 4, '0');
        if (hex !== undefined) map.set(code, utf16(hex));
      }
    }
  }
  return map;
}

interface TrueType {
  readonly glyphs: number;
  /** Advance width in thousandths of the size. */
  readonly advance: (glyph: number) => number;
}

/** `head`, `hhea`, `hmtx` and `maxp` of a TrueType program (OpenType specification). */
function trueType(bytes: Buffer): TrueType {
  const table = (wanted: string): number => {
    for (let i = 0; i < bytes.readUInt16BE(4); i++) {
      const record = 12 + 16 * i;
      if (bytes.toString('latin1', record, record + 4) === wanted) {
        return bytes.readUInt32BE(record + 8);
      }
    }
    throw new Error(`the font program has no table ${wanted}`);
  };
  const perEm = bytes.readUInt16BE(table('head') + 18);
  const measured = bytes.readUInt16BE(table('hhea') + 34);
  const widths = table('hmtx');
  return {
    glyphs: bytes.readUInt16BE(table('maxp') + 4),
    advance: (glyph) =>
      (1000 * bytes.readUInt16BE(widths + 4 * Math.min(glyph, measured - 1))) / perEm,
  };
}
