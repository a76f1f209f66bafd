/** What the pages print of themselves, whoever the patient is. */
export interface OwnText {
  /** Whether a word stands in it, given in small letters. */
  readonly has: (word: string) => boolean;
  /** Whether words stand side by side in it as they are written, given with a space between; see `stretchOf`. */
  readonly says: (words: string) => boolean;
  /** Where a word stands in it, for a message; null where it does not. */
  readonly placeOf: (word: string) => string | null;
}

/** Words in a row: what is compared, and how many before and behind the one in question. Not a clinical number. */
const ON_EACH_SIDE = 2;

const WORD = /[\p{L}\p{M}\p{N}]+/gu;

/** No text of our own: a capital letter always means a name. */
export const NO_OWN_TEXT: OwnText = { has: () => false, says: () => false, placeOf: () => null };

/**
 * Gathers texts.
 * @param texts what is printed, with the place that a message may name
 * @param words further words, in small letters
 */
export function ownTextOf(
  texts: readonly { readonly place: string; readonly text: string }[],
  words: Iterable<string> = [],
): OwnText {
  const known = new Set(words);
  const wordsIn = texts.map(({ text }) => text.match(WORD) ?? []);
  for (const all of wordsIn) for (const word of all) known.add(word.toLowerCase());
  return {
    has: (word) => known.has(word),
    // Seldom asked: only where a word of the pages may be a name.
    says: (stretch) => {
      const [first, ...others] = stretch.split(' ');
      return wordsIn.some((all) =>
        all.some(
          (word, index) =>
            word === first && others.every((other, i) => all[index + 1 + i] === other),
        ),
      );
    },
    placeOf: (word) => {
      const whole = new RegExp(`(?<![\\p{L}\\p{M}\\p{N}])${word}(?![\\p{L}\\p{M}\\p{N}])`, 'u');
      for (const { place, text } of texts) {
        const at = text.search(whole);
        if (at >= 0) return `${place}, line ${text.slice(0, at).split('\n').length}`;
      }
      return null;
    },
  };
}

/** A word with the two before and the two behind it, as `OwnText.says` takes them; null where fewer stand there. */
export function stretchOf(before: string, word: string, behind: string): string | null {
  const [some, others] = [before.match(WORD) ?? [], behind.match(WORD) ?? []];
  // What is cut off at an end of the text that was handed over is no whole word.
  const [first, last] = [some.slice(-ON_EACH_SIDE), others.slice(0, ON_EACH_SIDE)];
  if (first.length < ON_EACH_SIDE || last.length < ON_EACH_SIDE) return null;
  return [...first, word, ...last].join(' ');
}
