import { basename, dirname, join } from 'node:path';
import { type Identifier, identifiersOfUnread } from '../privacy/identifiers.js';
import type { Clinic } from '../record/clinic-schema.js';
import type { Formulary } from '../record/formulary-schema.js';
import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import { readClinic, readFormulary } from '../record/read-case.js';
import { readLoosely } from '../record/yaml-file.js';
import { type Content, loadContent } from './content.js';
import { type Effects, readText } from './effects.js';
import { findCases } from './find-cases.js';
import { house } from './house.js';
import { type Library, loadLibrary } from './library/library.js';
import { type LoadedCase, loadCase } from './load-case.js';
import { settled } from './settled.js';

/** A clinic with all cases that could be read, and those that could not. */
export interface Loaded {
  readonly clinic: Clinic;
  /** Path of its `clinic.yaml`. */
  readonly clinicFile: string;
  readonly content: Content;
  readonly library: Library;
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
  const content = loadContent(house.content, effects);
  if (!content.ok) return content;
  const library = loadLibrary(house.content, content.value, effects);
  if (!library.ok) return library;
  const collection = findCases(path, effects);
  if (!collection.ok) return collection;
  const { clinicFile, cases: folders } = collection.value;
  const text = readText(effects, clinicFile);
  if (!text.ok) return text;
  const clinic = readClinic(text.value, clinicFile, content.value.keys);
  if (!clinic.ok) return clinic;
  const formulary = loadFormulary(join(dirname(clinicFile), 'formulary.yaml'), effects);
  if (!formulary.ok) return formulary;
  const cases: LoadedCase[] = [];
  const failed: UnreadCase[] = [];
  for (const folder of folders) {
    effects.progress(`Reading ${basename(folder)}`);
    const loaded = settled(effects, (still) =>
      loadCase(folder, clinic.value.value, content.value.keys, still, formulary.value),
    );
    if (loaded.ok) cases.push(loaded.value);
    else {
      const name = basename(folder);
      const text = readText(effects, join(folder, 'case.yaml'));
      const identifiers = identifiersOfUnread(text.ok ? readLoosely(text.value) : null, name);
      failed.push({ name, problems: loaded.problems, identifiers });
    }
  }
  const collisions = [
    ...sameAddress(cases),
    ...sameRecord(clinic.value.value['calendars online'] ? cases : cases.filter(isPublished)),
  ];
  if (collisions.length > 0) return bad(...collisions);
  return good({
    clinic: clinic.value.value,
    clinicFile,
    content: content.value,
    library: library.value,
    cases,
    failed,
  });
}

/** Whether anything of a case may be public. */
export const isPublished = ({ facts: { consent, published } }: LoadedCase): boolean =>
  published !== null && (consent.teaching.allows || consent.record.allows);

/** The clinic's own doses beside its `clinic.yaml`; null where it keeps none. */
function loadFormulary(file: string, effects: Effects): Outcome<Formulary | null> {
  if (!effects.exists(file)) return good(null);
  const text = readText(effects, file);
  if (!text.ok) return text;
  const formulary = readFormulary(text.value, file);
  return formulary.ok ? good(formulary.value.value) : formulary;
}

/** Two cases of one record number would share a pseudonym, or the place of a calendar online. */
function sameRecord(cases: readonly LoadedCase[]): Problem[] {
  return cases.flatMap(({ name, places, facts: { identity } }, index): Problem[] => {
    const other = cases
      .slice(0, index)
      .find(({ facts }) => facts.identity.record === identity.record);
    return other === undefined
      ? []
      : [
          {
            kind: 'a record number used twice',
            ...places.record,
            found: `"${identity.record}", which the case ${other.name} has already`,
            expected:
              'a record number of its own for each case, as pseudonyms and calendars online follow it',
            mend: `Mend the number of ${name} or of ${other.name}.`,
          },
        ];
  });
}

/** Two cases that ask for the same public address. */
function sameAddress(cases: readonly LoadedCase[]): Problem[] {
  const taken = new Map<string, string>();
  return cases.flatMap(({ name, places, facts }): Problem[] => {
    const address = facts.published?.address;
    if (address === undefined) return [];
    const other = taken.get(address);
    taken.set(address, name);
    return other === undefined
      ? []
      : [
          {
            kind: 'a public address used twice',
            ...places.address,
            found: `"${address}", which the case ${other} has already`,
            expected: 'an address of its own for each case',
            mend: 'Change one of the two.',
          },
        ];
  });
}
