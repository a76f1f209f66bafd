import type { Species } from '../../record/vocabulary.js';
import type { Never } from './formulary-row.js';

/** A message of a drug that the formulary bans for a species, without its place and cure. */
export const banned = (drug: string, species: Species, { why }: Never) =>
  ({
    kind: 'a drug that the species never gets',
    found: `${drug} for a ${species}`,
    expected: `no ${drug} for a ${species}, as the formulary says: ${why}`,
  }) as const;
