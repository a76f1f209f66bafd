import type { Language } from '../language.js';
import { wordsIn } from './vocabulary.js';

/**
 * The language that a text is written in, where that is plainly another one than the reader's: it knows more of the words
 * than the reader's language does. What a language knows are the words of its own folder; names and numbers are known to none.
 * @returns null where no other language knows more of it
 */
export function otherLanguageOf(
  text: string,
  own: Language,
  all: Iterable<Language>,
): Language | null {
  const words = wordsIn(text);
  const known = ({ vocabulary }: Language) => words.filter((word) => vocabulary().has(word)).length;
  let best = { language: own, knows: known(own) };
  for (const language of all) {
    const knows = known(language);
    if (knows > best.knows) best = { language, knows };
  }
  return best.language === own ? null : best.language;
}
