import { SEARCH_INDEXES, type SearchIndex } from '../../live/search/contract.js';
import { fold } from '../../live/search/words.js';
import type { Block, Said } from '../../words/handout.js';
import type { Language } from '../../words/language.js';
import { headingAnchors } from '../html/anchors.js';

/** What stands under one heading of a page; without a heading what stands above the first. */
export interface Section {
  readonly at: string;
  readonly heading: string;
  readonly texts: readonly string[];
}

/** A page as the search finds it. */
export interface FoundPage {
  /** Path in the tree with its ending. */
  readonly file: string;
  readonly title: string;
  readonly lead: string;
  /** Asked for once, when its turn comes: those of all pages need not be in memory together. */
  readonly sections: () => readonly Section[];
}

/**
 * What the search of a language finds: the pages, and what stands under each of their headings, in the words and the
 * order of the page. A list of the words alone would put words side by side that no page has together, and the search
 * for identifiers could take two of them for a name; so the list is made in the browser, from these passages. For the
 * same reason each text, and each number in the place of one, stands behind a key.
 */
export function searchIndex(pages: readonly FoundPage[], language: Language): SearchIndex {
  const said = new Map<string, number>();
  const once = (text: string) => {
    const again = said.get(text);
    if (again !== undefined) return { again };
    said.set(text, said.size);
    return { text };
  };
  return {
    pages: pages.map(({ file, title, lead }) => ({ file, title, lead })),
    passages: pages.flatMap(({ sections }, page) =>
      sections().map(({ texts, ...section }) => ({ page, ...section, texts: texts.map(once) })),
    ),
    abbreviations: abbreviationsIn(language),
  };
}

/** From lines such as `VPC, PVC: ventricular premature; ventricular extrasystole`. */
function abbreviationsIn({ site }: Language): SearchIndex['abbreviations'] {
  const lines = site
    .text('search.abbreviations')
    .split('\n')
    .filter((line) => line.includes(':'));
  return Object.fromEntries(
    lines.flatMap((line) => {
      const [short = '', meant = ''] = line.split(':');
      const phrases = meant.split(';').map((phrase) => phrase.trim());
      return short.split(',').map((one) => [fold(one.trim()), phrases] as const);
    }),
  );
}

/** The index as the script that hands it over. */
export const searchScript = (tag: string, index: SearchIndex): string =>
  `(globalThis.${SEARCH_INDEXES} ??= {})[${JSON.stringify(tag)}] = ${JSON.stringify(index)};\n`;

export function sectionsOf(blocks: readonly Block[]): Section[] {
  const anchors = headingAnchors(blocks);
  const sections: { at: string; heading: string; texts: string[] }[] = [
    { at: '', heading: '', texts: [] },
  ];
  const walk = (inner: readonly Block[]): void => {
    for (const block of inner) {
      if (block.kind === 'heading') {
        sections.push({ at: anchors.get(block) as string, heading: block.text, texts: [] });
      } else if (block.kind === 'page' || block.kind === 'fold') walk(block.blocks);
      else if (block.kind === 'beside') walk([...block.left, ...block.right]);
      else sections.at(-1)?.texts.push(...textsOf(block).filter((text) => text !== ''));
    }
  };
  walk(blocks);
  return sections.filter(({ heading, texts }) => heading !== '' || texts.length > 0);
}

/** What a block says in sentences. The letters of a table of numbers and of a drawing are no passage to read. */
function textsOf(
  block: Exclude<Block, { kind: 'heading' | 'page' | 'fold' | 'beside' }>,
): string[] {
  switch (block.kind) {
    case 'paragraph':
      return [wordsOf(block.said)];
    case 'list':
      return block.items.map(wordsOf);
    case 'pairs':
      return block.rows.map(([label, value]) => `${label}: ${wordsOf(value)}.`);
    case 'callout':
      return [block.title, ...block.said.map(wordsOf)];
    case 'figure':
      return [wordsOf(block.caption)];
    case 'table':
      return [block.caption];
    case 'exercise':
      return [block.title, ...block.question.map(wordsOf)];
    case 'code':
      return [];
  }
}

/** What an example says is no statement: an ellipsis stands for it. */
const wordsOf = ({ runs }: Said): string =>
  runs.map(({ text, code }) => (code ? '…' : text)).join('');
