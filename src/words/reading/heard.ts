import type { Said } from '../handout.js';
import { readText } from '../handout-text.js';
import type { Language, LanguageContent } from '../language.js';
import type { Phrasebook } from '../phrasebook.js';

/** The message that a sentence came from: a file of the language's folder and a key in it, `call.items.0`. */
interface Source {
  readonly book: keyof LanguageContent;
  readonly key: string;
}

/** A language that remembers what it has said. */
export interface HeardLanguage {
  readonly language: Language;
  /** The message that a sentence came from; null for words that are not of the content, such as a record's own. */
  readonly sourceOf: (sentence: string) => Source | null;
}

const BOOKS = ['common', 'owner', 'learner', 'trade', 'procedures', 'purposes', 'rhythms'] as const;

/** A language that says the same as the one given, and remembers it. */
export function heard(language: Language): HeardLanguage {
  const said = new Map<string, Source>();
  const listening = (book: (typeof BOOKS)[number]): Phrasebook => {
    const { language: tag, say, all, text } = language[book];
    const noted = (passage: Said, key: string): Said => {
      said.set(readText(passage), { book, key });
      return passage;
    };
    return {
      language: tag,
      say: (key, ...rest) => noted(say(key, ...rest), key),
      all: (key, ...rest) =>
        all(key, ...rest).map((passage, index) => noted(passage, `${key}.${index}`)),
      text: (key, ...rest) => {
        const words = text(key, ...rest);
        said.set(words, { book, key });
        return words;
      },
    };
  };
  return {
    language: { ...language, ...Object.fromEntries(BOOKS.map((book) => [book, listening(book)])) },
    // The shortest message that holds the sentence is the one whose words it is made of.
    sourceOf: (sentence) =>
      [...said]
        .filter(([words]) => words.includes(sentence))
        .sort(([a], [b]) => a.length - b.length)[0]?.[1] ?? null,
  };
}
