import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Identifier } from '../../privacy/identifiers.js';
import { type Proof, proofFor } from '../../privacy/proof.js';
import { type Sought, soughtFrom } from '../../privacy/search/search.js';
import type { Problem } from '../../record/problem.js';
import { ownText, ownTexts } from '../own-text.js';
import { FILES, type Site } from '../site/site.js';
import { digestOf } from '../store/digest.js';
import { linksIn } from '../withheld.js';
import { namesNobody, type Searched, searchedFor, searchedKey, soughtBefore } from './recall.js';
import type { Workbench } from './workbench.js';

/** A part of the public tree. Plain data. */
export interface Suspect {
  /** The public tree. */
  readonly folder: string;
  /** What stands there, as paths from the tree with `/`. */
  readonly entries: readonly Entry[];
  /** Digest of what these entries are made of; null where that is not known, so that they are searched each time. */
  readonly documents: string | null;
  /** Key in the store of the identifiers that are sought. */
  readonly sought: string;
}

export interface Entry {
  readonly path: string;
  readonly is: 'file' | 'folder' | 'other';
}

/** What was found in a part of the public tree, before anybody asks whether it may be there. Plain data. */
export type Found =
  | { readonly kind: 'identifier'; readonly text: string; readonly problem: Problem }
  | { readonly kind: 'obstacle'; readonly problem: Problem }
  /** A way from a file to a case, as a path in the tree. */
  | { readonly kind: 'link'; readonly file: string; readonly to: string };

/**
 * Searches every byte of a part of the public tree: names of files and folders, and contents whatever they are wrapped
 * in. What was found in documents is kept, so that they are not searched for the same again: for identifiers that are new
 * they are searched for those alone. Where that finds one, everything is sought anew, so that all is told in its order.
 */
export function prove(suspect: Suspect, bench: Workbench): Found[] {
  const { documents } = suspect;
  const searched = moreSought(suspect, bench) ?? everythingSought(suspect, bench);
  if (documents) bench.store.keepValue(searchedKey(documents, bench), searched);
  return [...searched.found];
}

const everythingSought = (suspect: Suspect, bench: Workbench): Searched => {
  const { sought } = suspect;
  const prover = proverOf(sought, () => soughtBy(sought, bench), bench);
  return { sought, found: foundIn(suspect, prover) };
};

/** What was found before, where what is new is not found; null else. */
function moreSought(suspect: Suspect, bench: Workbench): Searched | null {
  const { documents, sought } = suspect;
  const searched = documents === null ? null : searchedFor(documents, bench);
  const before = searched && namesNobody(searched) ? soughtBefore(searched, sought, bench) : null;
  if (!searched || !before) return null;
  const name = digestOf('sought in turn', searched.sought, sought);
  const prover = proverOf(
    name,
    () => {
      bench.store.keepValue(name, before.all());
      return before.missing;
    },
    bench,
  );
  return namesNobody({ sought, found: foundIn(suspect, prover) })
    ? { sought: name, found: searched.found }
    : null;
}

function foundIn({ folder, entries }: Suspect, { findingsIn, texts }: Prover): Found[] {
  return entries.flatMap(({ path, is }): Found[] => {
    const file = join('public', path);
    if (is === 'other') return [];
    const bytes = is === 'file' ? readFileSync(join(folder, path)) : new Uint8Array();
    return [
      ...linksIn(bytes).map((to): Found => ({ kind: 'link', file, to })),
      ...findingsIn({ file, path, bytes, ownText: texts.get(path) }).map(
        ({ identifier, problem }): Found =>
          identifier
            ? { kind: 'identifier', text: identifier.text, problem }
            : { kind: 'obstacle', problem },
      ),
    ];
  });
}

function soughtBy(key: string, { store }: Workbench): readonly Identifier[] {
  const identifiers = store.value<readonly Identifier[]>(key);
  if (!identifiers) throw new Error('what is sought was lost from the store');
  return identifiers;
}

interface Prover {
  readonly findingsIn: Proof;
  readonly texts: Map<string, Uint8Array>;
}

/** A search takes a moment to prepare: the last ones are kept, one for everything and one for what is new. */
const provers = new Map<string, Prover>();
const MOST_PROVERS = 2;

/** @param name by which the same identifiers are known again */
function proverOf(
  name: string,
  identifiers: () => readonly Identifier[],
  { site, store, digest }: Workbench,
): Prover {
  let one = provers.get(name);
  if (!one) {
    const [oldest] = provers.keys();
    if (provers.size >= MOST_PROVERS) provers.delete(oldest as string);
    const key = digestOf('identifiers in every spelling', digest, name);
    let spelled = store.value<Sought>(key);
    if (!spelled) {
      spelled = soughtFrom(identifiers());
      store.keepValue(key, spelled);
    }
    one = { findingsIn: proofFor(spelled, ownText()), texts: textsOf(site) };
    provers.set(name, one);
  }
  return one;
}

function textsOf({ issued }: Site): Map<string, Uint8Array> {
  const texts = ownTexts();
  // The day that the clinic states for the whole site may well be a day of some case.
  if (issued !== null) texts.set(FILES.feed, Buffer.from(issued));
  return texts;
}
