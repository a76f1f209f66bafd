import { Gatherer, inside, type Piece } from './piece.js';

/** Elements within a word: what they part, a reader sees joined. */
const WITHIN_A_WORD =
  /^\/?(a|abbr|b|bdi|bdo|cite|code|del|dfn|em|font|i|ins|kbd|mark|q|s|samp|small|span|strong|sub|sup|tspan|u|var|wbr)$/i;

const LESS = '<'.charCodeAt(0);
const MORE = '>'.charCodeAt(0);
const SLASH = '/'.charCodeAt(0);
const DASH = '-'.charCodeAt(0);
const BANG = '!'.charCodeAt(0);
const QUESTION = '?'.charCodeAt(0);
const DOUBLE = '"'.charCodeAt(0);
const SINGLE = "'".charCodeAt(0);

/** What a reader sees of HTML, SVG or XML: the text between tags; null where there are none. */
export function betweenTags(piece: Piece): Piece | null {
  const { bytes } = piece;
  let out: Gatherer | null = null;
  let taken = 0;
  const tagAt = tagsOf(bytes);
  for (let at = bytes.indexOf(LESS); at >= 0; at = bytes.indexOf(LESS, at)) {
    const found = tagAt(at);
    if (!found) {
      at++;
      continue;
    }
    out ??= new Gatherer(bytes.length);
    out.copy(bytes, taken, at);
    if (!WITHIN_A_WORD.test(found.name)) out.put(0x20, at);
    at = found.end;
    taken = at;
  }
  if (!out) return null;
  out.copy(bytes, taken, bytes.length);
  const { bytes: plain, from } = out.done();
  return inside(piece, 'text between tags', plain, from, piece.sort, false);
}

/** A tag, comment or declaration: its name, if it has one, and where it ends. */
interface Tag {
  readonly name: string;
  readonly end: number;
}

/** Gives what begins with the `<` at a byte; null where that is a sign by itself. */
function tagsOf(bytes: Uint8Array): (at: number) => Tag | null {
  // From where on a sign stands no more: it is not looked for there twice.
  const gone = new Map<number, number>();
  const next = (sign: number, from: number): number => {
    if (from >= (gone.get(sign) ?? Number.POSITIVE_INFINITY)) return -1;
    const found = bytes.indexOf(sign, from);
    if (found < 0) gone.set(sign, from);
    return found;
  };
  let comments = true;

  const declaration = (at: number): Tag | null => {
    if (comments && bytes[at + 1] === BANG && bytes[at + 2] === DASH && bytes[at + 3] === DASH) {
      for (let end = next(MORE, at + 4); end >= 0; end = next(MORE, end + 1)) {
        if (end >= at + 6 && bytes[end - 1] === DASH && bytes[end - 2] === DASH) {
          return { name: '', end: end + 1 };
        }
      }
      comments = false;
    }
    const end = next(MORE, at + 2);
    return end < 0 ? null : { name: '', end: end + 1 };
  };

  /** The next of these signs: what is quoted is short, as a rule. */
  const nextQuote = (sign: number, from: number): number => {
    const near = Math.min(bytes.length, from + SHORT);
    for (let at = from; at < near; at++) if (bytes[at] === sign) return at;
    return next(sign, near);
  };

  return (at) => {
    const first = bytes[at + 1];
    if (first === BANG || first === QUESTION) return declaration(at);
    const begin = first === SLASH ? at + 2 : at + 1;
    if (!isLetter(bytes[begin])) return null;
    let end = begin + 1;
    while (OF_A_NAME[bytes[end] as number] === 1) end++;
    let name = '';
    for (let i = begin; i < Math.min(end, begin + LONGEST_NAME); i++) {
      name += String.fromCharCode(bytes[i] as number);
    }
    for (; end < bytes.length; end++) {
      const byte = bytes[end] as number;
      if (byte === MORE) return { name, end: end + 1 };
      if (byte !== DOUBLE && byte !== SINGLE) continue;
      // What is quoted may hold any sign, a `>` too.
      end = nextQuote(byte, end + 1);
      if (end < 0) return null;
    }
    return null;
  };
}

/** Bytes that are looked at one by one. */
const SHORT = 64;
/** Longer than any name that is asked for. */
const LONGEST_NAME = 10;
const isLetter = (byte: number | undefined): boolean => {
  const small = (byte ?? 0) | 0x20;
  return small >= 0x61 && small <= 0x7a;
};
const OF_A_NAME = new Uint8Array(256);
for (let byte = 0; byte < 256; byte++) {
  if (/[\w:.-]/.test(String.fromCharCode(byte))) OF_A_NAME[byte] = 1;
}
