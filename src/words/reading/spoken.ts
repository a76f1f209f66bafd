import type { Sentence } from './sentences.js';

/** How a language is read aloud. */
export interface Voice {
  readonly syllables: (word: string) => number;
  /** A number in words: `forty-two`. */
  readonly number: (value: number) => string;
  /** What short forms stand for: `mL` is read as `milliliters`. */
  readonly shortForms: Readonly<Record<string, string>>;
}

/**
 * The syllables of each word, as one reads it aloud. Numbers and short forms are read in full and count as one word, a
 * word with a hyphen too (rules of the SMOG score sheet, Prevention Research Center, University of South Carolina, 2008).
 */
export const spokenSyllables = (text: string, voice: Voice): number[] =>
  (text.match(WORD) ?? []).map((word) => {
    const known = counted.get(voice) ?? new Map<string, number>();
    counted.set(voice, known);
    let syllables = known.get(word);
    if (syllables === undefined) {
      syllables = syllablesOf(word, voice);
      if (known.size >= MOST_KEPT) known.clear();
      known.set(word, syllables);
    }
    return syllables;
  });

/** The words of each voice that were counted: sheets say the same few thousand. */
const counted = new WeakMap<Voice, Map<string, number>>();
/** Not a clinical number. */
const MOST_KEPT = 20_000;

const syllablesOf = (word: string, voice: Voice): number =>
  inFull(word, voice)
    .split(/[\s'’-]+/)
    .filter((part) => part !== '')
    .reduce((sum, part) => sum + voice.syllables(part), 0);

/** A number or a time of day, a word with its hyphens and apostrophes, a fraction. */
const WORD = /\d+(?:[.:]\d+)*|\p{L}+(?:['’-]\p{L}+)*|[¼½¾]/gu;

function inFull(word: string, { number, shortForms }: Voice): string {
  if (!/^\d/.test(word)) return shortForms[word] ?? word;
  const [hours, minutes] = word.split(':');
  if (minutes === undefined) return number(Number(word));
  return Number(minutes) === 0
    ? number(Number(hours))
    : `${number(Number(hours))} ${number(Number(minutes))}`;
}

/** A sentence to be read without its numbers and units. */
export const withoutFigures = (sentence: Sentence, { shortForms }: Voice): Sentence => ({
  ...sentence,
  readAs: (sentence.readAs ?? sentence.text).replace(WORD, (word) =>
    /^\d/.test(word) || word in shortForms ? '' : word,
  ),
});
