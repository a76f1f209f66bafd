import type { Problem } from '../record/problem.js';
import { isPublished } from './is-published.js';
import type { LoadedCase } from './load-case.js';

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

/** What two cases claim, and neither can be trusted with: it is not known which of them is wrong. */
export interface Clash {
  readonly problem: Problem;
  /** Names of the two case folders. */
  readonly between: readonly [string, string];
}

/**
 * Cases that claim the same. Two of one record number would share a pseudonym, a calendar online, and the
 * entries of a phone's calendar, where the doses of one would take the place of the other's.
 */
export function collisions(cases: readonly Claims[]): Clash[] {
  return [
    ...claimedTwice(cases, ({ address }) => address).map(([{ name, places, address }, other]) =>
      clash(name, other, {
        kind: 'a public address used twice',
        ...places.address,
        found: `"${address}", which the case ${other.name} has already`,
        expected: 'an address of its own for each case',
        mend: 'Change one of the two.',
      }),
    ),
    ...claimedTwice(cases, ({ vitalsDigest }) => vitalsDigest)
      .filter(([{ patient }, other]) => other.patient !== patient)
      .map(([{ name, places, patient }, other]) =>
        clash(name, other, {
          kind: 'readings of another patient',
          ...places.vitals,
          found: `a file that is the same, byte for byte, as that of ${other.patient} in the case ${other.name}`,
          expected: `readings of ${patient} alone`,
          mend: `Put the file of each patient into its folder: one of ${name} and ${other.name} has that of the other.`,
        }),
      ),
    ...claimedTwice(cases, ({ record }) => record).map(([{ name, places, record }, other]) =>
      clash(name, other, {
        kind: 'a record number used twice',
        ...places.record,
        found: `"${record}", which the case ${other.name} has already`,
        expected: 'a record number of its own for each case, as calendars and pseudonyms follow it',
        mend: `Mend the number of ${name} or of ${other.name}; for another surgery of one patient add to it, such as "${record}-2".`,
      }),
    ),
  ];
}

const clash = (name: string, other: Claims, problem: Problem): Clash => ({
  problem,
  between: [name, other.name],
});

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
