import { basename, join } from 'node:path';
import { type Identifier, identifiersOfUnread } from '../privacy/identifiers.js';
import type { Problem } from '../record/problem.js';
import { readLoosely } from '../record/yaml-file.js';
import { type Effects, readText } from './effects.js';

export interface FailedCase {
  /** Name of the case folder. */
  readonly name: string;
  readonly problems: readonly Problem[];
}

/** A case that could not be read, with what its record tells of people and days all the same. */
export interface UnreadCase extends FailedCase {
  readonly identifiers: readonly Identifier[];
}

/** A case that could not be read, with what its YAML tells of people and days. */
export function unread(folder: string, problems: readonly Problem[], effects: Effects): UnreadCase {
  const name = basename(folder);
  const text = readText(effects, join(folder, 'case.yaml'));
  const identifiers = identifiersOfUnread(text.ok ? readLoosely(text.value) : null, name);
  return { name, problems, identifiers };
}
