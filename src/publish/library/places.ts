import type { Block } from '../../words/handout.js';
import type { Language } from '../../words/language.js';
import type { Library, LibraryPage } from './library.js';
import type { Shelf } from './write-library.js';

/** Folder of the library in the public tree. */
const LIBRARY = 'library';

/** Where the pages of a language stand. */
export interface Place {
  readonly language: Language;
  /** `library/` or `library/es/` */
  readonly folder: string;
  /** From there to the top of the tree. */
  readonly root: string;
}

/** Those of the first language as `library/<slug>.html`, those of another as `library/<language>/<slug>.html`. */
export const placesOn = ({ languages }: Pick<Shelf, 'languages'>): Place[] =>
  languages.map((language, index) =>
    index === 0
      ? { language, folder: `${LIBRARY}/`, root: '../' }
      : { language, folder: `${LIBRARY}/${language.tag}/`, root: '../../' },
  );

export const pagesOf = (library: Library, { language }: Place): readonly LibraryPage[] =>
  library.pages.get(language.tag) ?? [];

/** Path of a page in the tree with its ending. */
export const fileAt = ({ folder }: Pick<Place, 'folder'>, slug: string): string =>
  `${folder}${slug}.html`;

/** What a page says in words. */
export const textOf = ({ body }: LibraryPage): Block[] =>
  body.flatMap((block) => (block.kind === 'text' ? [block.block] : []));
