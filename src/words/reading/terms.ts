import type { Said } from '../handout.js';
import { readText } from '../handout-text.js';
import { wholeWord } from './known-names.js';

/** A word of the trade, and the plain words of which one has to stand beside it in an owner's sheet. */
export interface Term {
  readonly word: string;
  readonly plain: readonly string[];
}

/** A term that a passage uses without a plain word for it. */
export interface UnexplainedTerm {
  readonly term: Term;
  readonly said: Said;
}

/** The terms that a handout uses without having explained them in the passage where they first stand. */
export function unexplainedTerms(
  passages: readonly Said[],
  terms: readonly Term[],
): UnexplainedTerm[] {
  const texts = passages.map((said) => readText(said).toLowerCase());
  return terms.flatMap((term) => {
    const word = term.word.toLowerCase();
    // Most terms stand nowhere, which a plain search tells much sooner.
    if (!texts.some((text) => text.includes(word))) return [];
    const pattern = termIn(term);
    const at = texts.findIndex((text) => pattern.test(text));
    const [said, text] = [passages[at], texts[at]];
    if (!said || text === undefined) return [];
    return term.plain.some((plain) => text.includes(plain.toLowerCase())) ? [] : [{ term, said }];
  });
}

/** The term in the singular or with a plural `s` or `es`. */
const termIn = ({ word }: Term): RegExp => {
  const { source } = wholeWord(word);
  return new RegExp(source.replace(/\(\?!\\p\{L\}\)$/, '(?:e?s)?(?!\\p{L})'), 'iu');
};

/**
 * The terms of a language: its own list (`terms.yaml`: word to plain words), and the learner's word for each thing that
 * the owner's sheet calls otherwise (`trade.yaml`).
 */
export function termsOf(listed: unknown, trade: unknown): Term[] {
  const own = Object.entries((listed ?? {}) as Record<string, unknown>).map(([word, plain]) => ({
    word,
    plain: [plain].flat().map(String),
  }));
  const known = new Set(own.map(({ word }) => word.toLowerCase()));
  return [...own, ...tradeTerms(trade).filter(({ word }) => !known.has(word.toLowerCase()))];
}

function tradeTerms(trade: unknown): Term[] {
  if (typeof trade !== 'object' || trade === null) return [];
  const { owner, learner } = trade as { owner?: unknown; learner?: unknown };
  if (typeof owner !== 'string' || typeof learner !== 'string') {
    return Object.values(trade).flatMap(tradeTerms);
  }
  // Up to the first bracket or comma: `polydioxanone, monofilament, slowly absorbable`. ICU messages are no words.
  const word = learner.split(/[,(]/)[0]?.trim() ?? '';
  const isPlain = owner.toLowerCase().includes(word.toLowerCase());
  return word === '' || isPlain || learner.includes('{') ? [] : [{ word, plain: [owner] }];
}
