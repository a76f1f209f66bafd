import { basename, join } from 'node:path';
import { type Identifier, identifiersOfUnread } from '../privacy/identifiers.js';
import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import { readLoosely } from '../record/yaml-file.js';
import { type Collection, openCollection } from './collection.js';
import { type Effects, readText } from './effects.js';
import { type LoadedCase, loadCase, type Reading } from './load-case.js';
import { settled } from './settled.js';

/** A clinic with all cases that could be read, and those that could not. */
export interface Loaded extends Pick<Collection, 'clinic' | 'content'> {
  readonly cases: readonly LoadedCase[];
  readonly failed: readonly UnreadCase[];
}

export interface FailedCase {
  /** Name of the case folder. */
  readonly name: string;
  readonly problems: readonly Problem[];
}

/** A case that could not be read, with what its record tells of people and days all the same. */
export interface UnreadCase extends FailedCase {
  readonly identifiers: readonly Identifier[];
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
  const clashes = collisions(cases.map(claimsOf));
  if (clashes.length > 0) return bad(...clashes);
  return good({ clinic, content, cases, failed });
}

/** Reads one case, again where its files change meanwhile. */
export const loadOne = (
  folder: string,
  { clinic, content, formulary }: Collection,
  effects: Effects,
  reading: Reading = {},
): Outcome<LoadedCase> =>
  settled(effects, (still) => loadCase(folder, clinic, content.keys, still, formulary, reading));

/** A case that could not be read, with what its YAML tells of people and days. */
export function unread(folder: string, problems: readonly Problem[], effects: Effects): UnreadCase {
  const name = basename(folder);
  const text = readText(effects, join(folder, 'case.yaml'));
  const identifiers = identifiersOfUnread(text.ok ? readLoosely(text.value) : null, name);
  return { name, problems, identifiers };
}

/** Whether anything of a case may be public. */
export const isPublished = ({ facts: { consent, published } }: LoadedCase): boolean =>
  published !== null && (consent.teaching.allows || consent.record.allows);

/** What a case claims for itself alone. */
export interface Claims {
  readonly name: string;
  /** Path of its `case.yaml`. */
  readonly file: string;
  readonly record: string;
  readonly patient: string;
  readonly vitalsDigest: string | null;
  /** Its public address; null where it has none. */
  readonly address: string | null;
  readonly isPublished: boolean;
  readonly places: LoadedCase['places'];
  readonly notes: LoadedCase['notes'];
}

export const claimsOf = (one: LoadedCase): Claims => ({
  name: one.name,
  file: one.file,
  record: one.facts.identity.record,
  patient: one.facts.identity.patientName,
  vitalsDigest: one.vitalsDigest,
  address: one.facts.published?.address ?? null,
  isPublished: isPublished(one),
  places: one.places,
  notes: one.notes,
});

/**
 * Problems of cases that claim the same. Two of one record number would share a pseudonym, a calendar online, and the
 * entries of a phone's calendar, where the doses of one would take the place of the other's.
 */
export function collisions(cases: readonly Claims[]): Problem[] {
  return [
    ...claimedTwice(cases, ({ address }) => address).map(
      ([{ places, address }, other]): Problem => ({
        kind: 'a public address used twice',
        ...places.address,
        found: `"${address}", which the case ${other.name} has already`,
        expected: 'an address of its own for each case',
        mend: 'Change one of the two.',
      }),
    ),
    ...claimedTwice(cases, ({ vitalsDigest }) => vitalsDigest)
      .filter(([{ patient }, other]) => other.patient !== patient)
      .map(
        ([{ name, places, patient }, other]): Problem => ({
          kind: 'readings of another patient',
          ...places.vitals,
          found: `a file that is the same, byte for byte, as that of ${other.patient} in the case ${other.name}`,
          expected: `readings of ${patient} alone`,
          mend: `Put the file of each patient into its folder: one of ${name} and ${other.name} has that of the other.`,
        }),
      ),
    ...claimedTwice(cases, ({ record }) => record).map(
      ([{ name, places, record }, other]): Problem => ({
        kind: 'a record number used twice',
        ...places.record,
        found: `"${record}", which the case ${other.name} has already`,
        expected: 'a record number of its own for each case, as calendars and pseudonyms follow it',
        mend: `Mend the number of ${name} or of ${other.name}; for another surgery of one patient add to it, such as "${record}-2".`,
      }),
    ),
  ];
}

/** Cases that claim what one before them has, with the last that has it. */
function claimedTwice(
  cases: readonly Claims[],
  claim: (one: Claims) => string | null,
): [Claims, other: Claims][] {
  const taken = new Map<string, Claims>();
  return cases.flatMap((one): [Claims, Claims][] => {
    const wanted = claim(one);
    if (wanted === null) return [];
    const other = taken.get(wanted);
    taken.set(wanted, one);
    return other === undefined ? [] : [[one, other]];
  });
}
