import type { Block, Said } from '../handout.js';
import { readText } from '../handout-text.js';

/** A sentence of a handout's prose, with the facts that its passage states. */
export interface Sentence {
  readonly text: string;
  /** The text that the formulas read, where it is not the printed one. */
  readonly readAs?: string;
  readonly facts: readonly string[];
}

/** The passages that a handout says in sentences; headings, labels, codes and boxes to tick are none. */
export const passagesOf = (blocks: readonly Block[]): readonly Said[] => blocks.flatMap(passages);

function passages(block: Block): readonly Said[] {
  switch (block.kind) {
    case 'heading':
    case 'code':
      return [];
    case 'paragraph':
      return [block.said];
    case 'list':
      return block.items;
    case 'pairs':
      return block.rows.map(([, value]) => value);
    case 'callout':
      return block.said;
    case 'figure':
      return [block.caption];
    case 'page':
    case 'fold':
      return passagesOf(block.blocks);
    case 'exercise':
      return [...block.question, ...block.answer];
    case 'beside':
      return passagesOf([...block.left, ...block.right]);
    case 'table':
      return block.rows.flat().flatMap((cell) => {
        if (cell.kind === 'said') return cell.said;
        return cell.figure ? [cell.figure.caption] : [];
      });
  }
}

/**
 * Each sentence of the passages, in order; a passage ends its last sentence. What has fewer than three words or no stop is
 * a label or a date and not a sentence: short pieces would make a sheet look easier than it is.
 */
export function sentencesOf(passages: readonly Said[], language: string): Sentence[] {
  const segmenter = new Intl.Segmenter(language, { granularity: 'sentence' });
  return passages.flatMap((said) =>
    joinedTitles([...segmenter.segment(readText(said))].map(({ segment }) => segment))
      .flatMap(splitBeforeNumbers)
      .map((text) => ({ text: text.trim(), facts: said.facts }))
      .filter(({ text }) => isSentence(text)),
  );
}

/** Not a clinical number. */
const LEAST_WORDS = 3;

const isSentence = (text: string): boolean =>
  /[.!?:]["”»)]*$/.test(text) && (text.match(/\p{L}{2,}/gu) ?? []).length >= LEAST_WORDS;

/** `Dr. ` ends no sentence: a segment that ends in a short word with a capital goes with the next one. */
function joinedTitles(segments: readonly string[]): string[] {
  const joined: string[] = [];
  for (const segment of segments) {
    const before = joined.at(-1);
    if (before !== undefined && /(?<!\p{L})\p{Lu}\p{Ll}{0,2}\.\s*$/u.test(before)) {
      joined[joined.length - 1] = before + segment;
    } else joined.push(segment);
  }
  return joined;
}

/** `Once a day. 4 doses in all.` are two sentences, though the second begins with no capital. */
const splitBeforeNumbers = (segment: string): string[] =>
  segment.split(/(?<=(?:\p{Ll}{2}|\))[.!?])\s+(?=\d)/u);
