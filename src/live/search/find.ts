import MiniSearch, { type Query } from 'minisearch';
import type { SearchIndex } from './contract.js';
import { wholePassages } from './passages.js';
import { fold, marked, type Piece, wordsIn } from './words.js';

export interface Found {
  /** The best first. */
  readonly pages: readonly FoundPage[];
  /** How many passages were found in all. */
  readonly passages: number;
  /** Whether nothing holds all words, so that these hold some of them. */
  readonly loosely: boolean;
}

interface FoundPage {
  readonly file: string;
  readonly title: readonly Piece[];
  /** The passages that hold the words; the page's lead where only its title does. */
  readonly passages: readonly FoundPassage[];
}

export interface FoundPassage {
  /** Id of the heading; empty for the beginning of the page. */
  readonly at: string;
  readonly heading: readonly Piece[];
  readonly text: readonly Piece[];
}

/** A title tells more of what a page is about than a heading, a question more than a sentence. Not clinical numbers. */
const WEIGHTS = { title: 6, heading: 4, text: 1, around: 0.2 };

/** Fewer letters begin too many words. Not a clinical number. */
const SHORTEST_BEGINNING = 3;

interface Entry {
  readonly id: number;
  readonly page: number;
  readonly at: string;
  readonly title: string;
  readonly heading: string;
  readonly text: string;
  /** Title and lead of the page: a passage may leave to them what it is about. */
  readonly around: string;
}

/**
 * A search over one index. Case and accents do not count, the beginning of a word is enough, and an abbreviation of the
 * trade also finds what it stands for. Words that are merely
 * like another are not taken for it: of hypotension and hypertension only one is meant.
 */
export function searchOver(searched: SearchIndex): (query: string) => Found {
  const { pages, abbreviations } = searched;
  const entries: Entry[] = [
    ...pages.map(({ title, lead }, page) => ({
      page,
      at: '',
      title,
      heading: '',
      text: lead,
      around: '',
    })),
    ...wholePassages(searched).map(({ page, at, heading, text }) => {
      const { title = '', lead = '' } = pages[page] ?? {};
      return { page, at, title: '', heading, text, around: `${title} ${lead}` };
    }),
  ].map((entry, id) => ({ id, ...entry }));
  const index = new MiniSearch<Entry>({
    fields: Object.keys(WEIGHTS),
    tokenize: wordsIn,
    processTerm: fold,
    searchOptions: { boost: WEIGHTS, prefix: (term) => term.length >= SHORTEST_BEGINNING },
  });
  index.addAll(entries);

  const meant = (word: string): Query => {
    const phrases = Object.hasOwn(abbreviations, fold(word)) ? abbreviations[fold(word)] : null;
    if (!phrases) return word;
    const whole = phrases.map((phrase) => ({
      combineWith: 'AND' as const,
      queries: wordsIn(phrase),
    }));
    return { combineWith: 'OR', queries: [word, ...whole] };
  };
  const hitsFor = (query: string, combineWith: 'AND' | 'OR') =>
    index
      .search({ combineWith, queries: wordsIn(query).map(meant) })
      // What only the page around it says is no hit of the passage.
      .filter(({ match }) =>
        Object.values(match).some((fields) => fields.some((field) => field !== 'around')),
      );

  return (query) => {
    const all = hitsFor(query, 'AND');
    const hits = all.length > 0 ? all : hitsFor(query, 'OR');
    const found = new Map<number, FoundPassage[]>();
    const terms = new Set(hits.flatMap((hit) => hit.terms));
    for (const hit of hits) {
      const { page, at, heading, text } = entries[hit.id as number] as Entry;
      const passage = { at, heading: marked(heading, terms), text: marked(text, terms, true) };
      found.set(page, [...(found.get(page) ?? []), passage]);
    }
    return {
      pages: [...found].map(([page, passages]) => {
        const { file = '', title = '' } = pages[page] ?? {};
        return { file, title: marked(title, terms), passages };
      }),
      passages: hits.length,
      loosely: all.length === 0 && hits.length > 0,
    };
  };
}
