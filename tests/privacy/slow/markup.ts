import { gatherer, inside, latin, type Piece } from './piece.js';

/** Elements within a word: what they part, a reader sees joined. */
const WITHIN_A_WORD =
  /^\/?(a|abbr|b|bdi|bdo|cite|code|del|dfn|em|font|i|ins|kbd|mark|q|s|samp|small|span|strong|sub|sup|tspan|u|var|wbr)$/i;

const TAG = '<'.charCodeAt(0);

/** What a reader sees of HTML, SVG or XML: the text between tags; null where there are none. */
export function betweenTags(piece: Piece): Piece | null {
  const { bytes } = piece;
  const text = latin(bytes);
  const out = gatherer(bytes.length);
  let changed = false;
  const tag = /<!--[\s\S]*?-->|<\/?([a-zA-Z][\w:.-]*)(?:[^>"']|"[^"]*"|'[^']*')*>|<[!?][^>]*>/y;
  let taken = 0;
  for (let at = bytes.indexOf(TAG); at >= 0; at = bytes.indexOf(TAG, at)) {
    tag.lastIndex = at;
    const found = tag.exec(text);
    if (!found) {
      at++;
      continue;
    }
    changed = true;
    out.copy(bytes, taken, at);
    if (!WITHIN_A_WORD.test(found[1] ?? '')) out.put(0x20, at);
    at += found[0].length;
    taken = at;
  }
  if (!changed) return null;
  out.copy(bytes, taken, bytes.length);
  const { bytes: plain, from } = out.done();
  return inside(piece, 'text between tags', plain, from, piece.sort, false);
}
