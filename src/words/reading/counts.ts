import type { Sentence } from './sentences.js';
import { spokenSyllables, type Voice } from './spoken.js';

/** What the formulas are computed from. */
export interface Counts {
  readonly sentences: number;
  readonly words: number;
  readonly syllables: number;
  /** Words of three syllables or more. */
  readonly longWords: number;
}

/** Counts sentences, words and syllables as they are read aloud in the voice's language. */
export function countsOf(sentences: readonly Sentence[], voice: Voice): Counts {
  const words = sentences.flatMap(({ text, readAs = text }) => spokenSyllables(readAs, voice));
  return {
    sentences: sentences.length,
    words: words.length,
    syllables: words.reduce((sum, syllables) => sum + syllables, 0),
    longWords: words.filter((syllables) => syllables >= 3).length,
  };
}
