import type { Sentence } from './sentences.js';

/**
 * Sentences with a name that the reader knows read as a plain word: whoever lives with Pumpernickel does not find the
 * name hard, and nobody can choose a shorter one.
 */
export const withKnownName = (
  sentences: readonly Sentence[],
  name: string,
  plainWord: string,
): Sentence[] =>
  sentences.map((sentence) => ({
    ...sentence,
    readAs: sentence.text.replace(wholeWord(name), plainWord),
  }));

/** A word or phrase that is no part of a longer one. */
export const wholeWord = (phrase: string): RegExp =>
  new RegExp(`(?<!\\p{L})${phrase.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?!\\p{L})`, 'giu');
