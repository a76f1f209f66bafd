import type { Block } from './handout.js';
import { textOf } from './handout-text.js';

/** A term of the trade with its explanation, for learners. */
export interface GlossaryTerm {
  /** The same in each language; the address of the term on its page. */
  readonly key: string;
  readonly term: string;
  /** Other words for the same thing: abbreviations, forms that no rule of inflection gives. */
  readonly also: readonly string[];
  readonly text: string;
}

/**
 * The terms that a text uses, in the order of the glossary. A term counts as a whole word, in the singular or plural;
 * one with capitals within it, such as `SpO2` or `T wave`, counts with these capitals alone.
 */
export function termsUsed(text: string, glossary: readonly GlossaryTerm[]): GlossaryTerm[] {
  const small = text.toLowerCase();
  return glossary.filter(({ term, also }) =>
    [term, ...also].some((word) => {
      const { stem, whole } = formsOf(word);
      return small.includes(stem) && whole.test(text);
    }),
  );
}

/** The same of everything that a handout prints. */
export const termsOfBlocks = (
  blocks: readonly Block[],
  glossary: readonly GlossaryTerm[],
): GlossaryTerm[] => termsUsed(textOf(blocks), glossary);

interface Forms {
  /** What each form begins with, in small letters. Most texts lack it, and it is sought sooner than `whole`. */
  readonly stem: string;
  readonly whole: RegExp;
}

const known = new Map<string, Forms>();

function formsOf(word: string): Forms {
  const before = known.get(word);
  if (before) return before;
  const made = { stem: stemOf(word), whole: patternOf(word) };
  known.set(word, made);
  return made;
}

/** No inflection changes more than the last two letters of a word. */
const stemOf = (word: string): string =>
  (word.trim().split(/\s+/)[0] as string).slice(0, -2).toLowerCase();

/**
 * Whole words; each of them may stand in the plural, as Spanish adjectives do: `herida abierta`, `heridas abiertas`.
 * English and Spanish form it with `s` or `es`, English from a `y` with `ies`, Spanish from a `z` with `ces`, and a
 * Spanish accent on the last syllable is lost: `incisión`, `incisiones`.
 */
function patternOf(word: string): RegExp {
  const parts = word.trim().split(/\s+/).map(inflected);
  const words = parts.join(String.raw`[\s\u00a0]+`);
  const whole = (inner: string, flags: string) =>
    new RegExp(String.raw`(?<![\p{L}\d])(?:${inner})(?![\p{L}\d])`, flags);
  if (!/\p{Lu}/u.test(word)) return whole(words, 'iu');
  // `lead II` begins a sentence as `Lead II`.
  const first = inflected((word.trim().split(/\s+/)[0] as string).replace(/^\p{Ll}/u, capital));
  return whole(`${words}|${[first, ...parts.slice(1)].join(String.raw`[\s\u00a0]+`)}`, 'u');
}

const capital = (letter: string) => letter.toUpperCase();

function inflected(word: string): string {
  const plain = escaped(word);
  const unaccented = word.replace(/([áéíóú])([ns])$/, (_, vowel: string, last: string) => {
    return `${UNACCENTED[vowel] ?? vowel}${last}`;
  });
  const forms = [
    `${plain}(?:e?s)?`,
    ...(/y$/.test(word) ? [`${escaped(word.slice(0, -1))}ies`] : []),
    ...(/z$/.test(word) ? [`${escaped(word.slice(0, -1))}ces`] : []),
    ...(unaccented === word ? [] : [`${escaped(unaccented)}es`]),
  ];
  return `(?:${forms.join('|')})`;
}

const UNACCENTED: Readonly<Record<string, string>> = { á: 'a', é: 'e', í: 'i', ó: 'o', ú: 'u' };

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
