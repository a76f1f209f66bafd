import { basename } from 'node:path';
import { good, type Outcome, type Problem } from '../record/problem.js';
import { claimsOf, collisions } from './claims.js';
import { type Collection, openCollection } from './collection.js';
import type { Effects } from './effects.js';
import { type LoadedCase, loadCase, type Reading } from './load-case.js';
import { settled } from './settled.js';
import { type UnreadCase, unread } from './unread.js';

/** A clinic with all cases that could be read, and those that could not. */
export interface Loaded extends Pick<Collection, 'clinic' | 'content'> {
  readonly cases: readonly LoadedCase[];
  readonly failed: readonly UnreadCase[];
  /** What two cases claim for themselves alone; each of them can be read, and neither be used. */
  readonly clashes: readonly Problem[];
}

/** Reads a collection; fails as a whole only where its clinic or its folder cannot be read. */
export function load(path: string, effects: Effects): Outcome<Loaded> {
  const opened = openCollection(path, effects);
  if (!opened.ok) return opened;
  const { clinic, content, folders } = opened.value;
  const cases: LoadedCase[] = [];
  const failed: UnreadCase[] = [];
  for (const folder of folders) {
    effects.progress(`Reading ${basename(folder)}`);
    const loaded = loadOne(folder, opened.value, effects);
    if (loaded.ok) cases.push(loaded.value);
    else failed.push(unread(folder, loaded.problems, effects));
  }
  return good({
    clinic,
    content,
    cases,
    failed,
    clashes: collisions(cases.map(claimsOf)).map(({ problem }) => problem),
  });
}

/** Reads one case, again where its files change meanwhile. */
export const loadOne = (
  folder: string,
  { clinic, content, formulary }: Collection,
  effects: Effects,
  reading: Reading = {},
): Outcome<LoadedCase> =>
  settled(effects, (still) => loadCase(folder, clinic, content.keys, still, formulary, reading));
