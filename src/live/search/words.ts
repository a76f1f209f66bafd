/** A stretch of a text, and whether it is a word that was asked for. */
export interface Piece {
  readonly text: string;
  readonly hit: boolean;
}

const WORD = /[\p{L}\p{N}\p{M}]+/gu;

export const wordsIn = (text: string): string[] => text.match(WORD) ?? [];

/** A word without case and accents: `Respiración` to `respiracion`. */
export const fold = (word: string): string =>
  word.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();

/** About three lines on a wide screen. Not a clinical number. */
const LONGEST_EXCERPT = 260;

/**
 * A text with the asked words marked.
 * @param terms the words as `fold` gives them
 * @param short only the sentences around the words, and the beginning of the text where none is there
 */
export function marked(text: string, terms: ReadonlySet<string>, short = false): Piece[] {
  const shown = short ? excerpt(text, terms) : text;
  const pieces: Piece[] = [];
  let end = 0;
  for (const found of shown.matchAll(WORD)) {
    if (!terms.has(fold(found[0]))) continue;
    if (found.index > end) pieces.push({ text: shown.slice(end, found.index), hit: false });
    pieces.push({ text: found[0], hit: true });
    end = found.index + found[0].length;
  }
  if (end < shown.length) pieces.push({ text: shown.slice(end), hit: false });
  return pieces;
}

/** Whole sentences from the one with the most of the words on, as many as there is room for. */
function excerpt(text: string, terms: ReadonlySet<string>): string {
  const sentences = text.split(/(?<=[.!?])\s+/u);
  const counts = sentences.map(
    (sentence) =>
      new Set(
        wordsIn(sentence)
          .map(fold)
          .filter((word) => terms.has(word)),
      ).size,
  );
  const from = counts.indexOf(Math.max(...counts));
  let shown = sentences[from] ?? '';
  let next = from + 1;
  while (
    next < sentences.length &&
    shown.length + (sentences[next]?.length ?? 0) < LONGEST_EXCERPT
  ) {
    shown += ` ${sentences[next]}`;
    next++;
  }
  return `${from > 0 ? '… ' : ''}${cut(shown, terms)}${next < sentences.length ? ' …' : ''}`;
}

/** A sentence that is too long by itself, from a little before its first asked word. */
function cut(sentence: string, terms: ReadonlySet<string>): string {
  if (sentence.length <= 2 * LONGEST_EXCERPT) return sentence;
  const first = [...sentence.matchAll(WORD)].find(([word]) => terms.has(fold(word)))?.index ?? 0;
  const from = first < LONGEST_EXCERPT ? 0 : sentence.indexOf(' ', first - LONGEST_EXCERPT / 2) + 1;
  const to = sentence.indexOf(' ', from + LONGEST_EXCERPT);
  return `${from > 0 ? '… ' : ''}${to < 0 ? sentence.slice(from) : `${sentence.slice(from, to)} …`}`;
}
