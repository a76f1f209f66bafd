import type { Block } from '../../words/handout.js';
import { anchors } from '../html/anchors.js';
import type { Link, ReadPage } from './site.js';

/** A term of the trade with its explanation. */
export interface GlossaryTerm {
  readonly key: string;
  readonly term: string;
  readonly text: string;
}

/** The terms of one language, and how to tell which of them a text uses. */
export interface Glossary {
  readonly terms: readonly GlossaryTerm[];
  readonly usedIn: (blocks: readonly Block[]) => readonly Pick<GlossaryTerm, 'key'>[];
}

export interface GlossaryEntry {
  readonly id: string;
  readonly term: string;
  readonly text: string;
  /** Pages that use the term. */
  readonly uses: readonly Link[];
}

/** The pages that use each term, by its key. */
export function usesOf(
  { usedIn }: Pick<Glossary, 'usedIn'>,
  pages: readonly ReadPage[],
): ReadonlyMap<string, readonly Link[]> {
  const uses = new Map<string, Link[]>();
  for (const { file, title, blocks } of pages) {
    for (const { key } of usedIn(blocks)) {
      uses.set(key, [...(uses.get(key) ?? []), { href: file, label: title }]);
    }
  }
  return uses;
}

/** Each term with its own address and the pages that use it. */
export function glossaryPage(
  terms: readonly GlossaryTerm[],
  uses: ReadonlyMap<string, readonly Link[]>,
): GlossaryEntry[] {
  const id = anchors();
  return terms.map(({ key, term, text }) => ({
    id: id(key),
    term,
    text,
    uses: uses.get(key) ?? [],
  }));
}
