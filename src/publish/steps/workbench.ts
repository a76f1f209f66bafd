import { good, type Outcome } from '../../record/problem.js';
import { type Collection, loadWords } from '../collection.js';
import type { Effects } from '../effects.js';
import type { Site } from '../site/site.js';
import { siteOf } from '../site/site-of.js';
import { digestOf } from '../store/digest.js';
import { programDigest } from '../store/program-digest.js';
import type { Store } from '../store/store.js';

/** What every step of a build works with. */
export interface Workbench {
  readonly collection: Collection;
  readonly site: Site;
  readonly store: Store;
  readonly effects: Effects;
  /** Of all that is the same for every case of this build: the program, its words, the clinic and its formulary. */
  readonly digest: string;
}

/** The part of a collection that another thread can be handed; it reads the words of the program itself. */
export type Handed = Omit<Collection, 'content' | 'library'>;

/** @param epoch SOURCE_DATE_EPOCH, where it is set */
export function workbench(
  collection: Collection,
  epoch: string | undefined,
  store: Store,
  effects: Effects,
): Workbench {
  const { clinic, formulary, content, library } = collection;
  const site = siteOf({ clinic, content, library, epoch });
  return {
    collection,
    site,
    store,
    effects,
    digest: digestOf(programDigest(), JSON.stringify([clinic, formulary, site.at, site.issued])),
  };
}

/** A collection as another thread has it. */
export function received(handed: Handed, effects: Effects): Outcome<Collection> {
  const words = loadWords(effects);
  return words.ok ? good({ ...handed, ...words.value }) : words;
}
