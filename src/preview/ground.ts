import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { KeyedHash } from '../privacy/veil.js';
import { type Collection, loadWords, openCollection, type Words } from '../publish/collection.js';
import type { Effects } from '../publish/effects.js';
import { findCases } from '../publish/find-cases.js';
import { house } from '../publish/house.js';
import { pseudonymHash } from '../publish/pseudonym-key.js';
import type { Site } from '../publish/site/site.js';
import { siteOf } from '../publish/site/site-of.js';
import { good, type Outcome } from '../record/problem.js';
import { noting } from './noted.js';

/** What all cases share: the clinic, the program's words, and the key. */
export interface Ground {
  readonly collection: Collection;
  readonly site: Site;
  /** Why there is no key where there is none. */
  readonly hash: Outcome<KeyedHash>;
}

export type Environment = Readonly<Record<string, string | undefined>>;

/** The ground of a collection, read again where what it rests on has changed. */
export function groundOf(path: string, environment: Environment, effects: Effects) {
  let words: { readonly stamp: string; readonly value: Outcome<Words> } | undefined;
  const foldersNow = () => JSON.stringify(findCases(path, effects));
  let held = read();

  function read() {
    const stamp = wordsStamp(effects);
    if (words?.stamp !== stamp) words = { stamp, value: loadWords(effects) };
    const folders = foldersNow();
    const noted = noting(effects);
    const opened = openCollection(path, noted.effects, words.value);
    const ground = opened.ok ? good(around(opened.value, environment)) : opened;
    return {
      ground,
      isUnchanged: () =>
        noted.isUnchanged() && wordsStamp(effects) === stamp && foldersNow() === folders,
    };
  }

  return {
    /** Whether it had to be read anew. */
    refresh: (): boolean => {
      if (held.isUnchanged()) return false;
      held = read();
      return true;
    },
    now: (): Outcome<Ground> => held.ground,
  };
}

function around(collection: Collection, environment: Environment): Ground {
  const { clinic, clinicFile, content, library } = collection;
  return {
    collection,
    site: siteOf({ clinic, content, library, epoch: environment.SOURCE_DATE_EPOCH }),
    hash: pseudonymHash({ clinic, clinicFile, out: 'out', environment }),
  };
}

const wordsStamp = ({ stamp }: Effects): string =>
  readdirSync(house.content, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((file) => `${file} ${stamp(file)}`)
    .join('\n');
