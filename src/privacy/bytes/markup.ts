import { gatherer, inside, latin, type Piece } from './piece.js';

/** Elements within a word: what they part, a reader sees joined. */
const WITHIN_A_WORD =
  /^\/?(a|abbr|b|bdi|bdo|cite|code|del|dfn|em|font|i|ins|kbd|mark|q|s|samp|small|span|strong|sub|sup|tspan|u|var|wbr)$/i;

/** What a reader sees of HTML, SVG or XML: the text between tags; null where there are none. */
export function betweenTags(piece: Piece): Piece | null {
  const { bytes } = piece;
  const text = latin(bytes);
  const out = gatherer(bytes.length);
  let changed = false;
  const tag = /<!--[\s\S]*?-->|<\/?([a-zA-Z][\w:.-]*)(?:[^>"']|"[^"]*"|'[^']*')*>|<[!?][^>]*>/y;
  for (let at = 0; at < bytes.length; ) {
    if (bytes[at] === 0x3c) {
      tag.lastIndex = at;
      const found = tag.exec(text);
      if (found) {
        changed = true;
        if (!WITHIN_A_WORD.test(found[1] ?? '')) out.put(0x20, at);
        at += found[0].length;
        continue;
      }
    }
    out.put(bytes[at] as number, at++);
  }
  if (!changed) return null;
  const { bytes: plain, from } = out.done();
  return inside(piece, 'text between tags', plain, from, piece.sort, false);
}
