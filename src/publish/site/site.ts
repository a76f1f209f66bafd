import type { Block, Handout } from '../../words/handout.js';
import type { Language } from '../../words/language.js';
import type { Shelf } from '../library/write-library.js';
import type { Explanation } from './explanations.js';
import type { OwnPage } from './own-pages.js';

/** What all pages of the public site share. */
export interface Site {
  /** Of the cases and of the lists. */
  readonly language: Language;
  /** Every language in which there are words, by its tag. */
  readonly languages: ReadonlyMap<string, Language>;
  /** Where the clinic puts the tree, without a last slash; null where it does not say. */
  readonly at: string | null;
  /** The day that the feed tells for everything; null where none is stated. */
  readonly issued: string | null;
  /** Pages that no case has a part in. */
  readonly own: readonly OwnPage[];
  /** Pages of the library in the languages of the clinic, those of the site first. */
  readonly explanations: readonly Explanation[];
  readonly shelf: Shelf;
}

/** A case of which something is published, as the rest of the site tells of it and leads to it. Plain data. */
export interface ShownCase {
  readonly pseudonym: string;
  readonly title: string;
  readonly species: string;
  readonly procedure: string;
  /** The rhythms that its strips prove, each once; null where a stretch of them allowed no name. */
  readonly rhythms: readonly (string | null)[];
  /** What people asked, each with its place on the page. */
  readonly questions: readonly Link[];
  /** The teaching page before the record. */
  readonly documents: readonly ShownDocument[];
}

export interface ShownDocument extends Pick<Handout, 'title' | 'lead' | 'language' | 'draft'> {
  /** Path in the tree with its ending. */
  readonly file: string;
  readonly reader: 'learner' | 'student';
  /** What a link to it says, beside the title of the case. */
  readonly label: string;
  /** Key in the store of what the search finds in it. */
  readonly passages: string;
  /** Terms of the glossary that it uses, by their keys. */
  readonly terms: readonly string[];
}

export interface Link {
  readonly href: string;
  readonly label: string;
}

/** A page as the search and the glossary read it. */
export interface ReadPage {
  /** Path in the tree with its ending. */
  readonly file: string;
  readonly title: string;
  readonly lead: string;
  readonly language: string;
  readonly blocks: readonly Block[];
}

/** Pages of the site that are there whatever is published. */
export const FILES = {
  home: 'index.html',
  species: 'species.html',
  procedures: 'procedures.html',
  rhythms: 'rhythms.html',
  questions: 'questions.html',
  explanations: 'library/index.html',
  glossary: 'library/glossary.html',
  search: 'search.html',
  feed: 'feed.xml',
  sitemap: 'sitemap.xml',
  robots: 'robots.txt',
} as const;

export const LISTS = ['species', 'procedures', 'rhythms', 'questions'] as const;
export type ListName = (typeof LISTS)[number];

/** The document in which a case is told: its teaching page, or its record where there is no other. */
export const mainOf = ({ documents }: ShownCase): ShownDocument => documents[0] as ShownDocument;
