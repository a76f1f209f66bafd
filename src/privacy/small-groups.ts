import { AGE_BANDS, type AgeBand } from './age-band.js';

/** What is told of a patient by which somebody could look for it among the patients of a region. */
export interface Traits {
  readonly species: string;
  readonly breed: string;
  readonly ageBand: AgeBand;
  readonly sex: string;
  readonly procedure: string;
  readonly region: string | null;
}

/** How much of the traits may be told; null for what may not. */
export interface Told {
  readonly breed: string | null;
  readonly ageBand: AgeBand | WideAgeBand | null;
  readonly sex: boolean;
}

const WIDE_AGE_BANDS = ['under 4', '4 or more'] as const;
type WideAgeBand = (typeof WIDE_AGE_BANDS)[number];

/** Whether a band of ages is one of the wide ones, which are told where too few cases share the usual one. */
export const isWide = (band: AgeBand | WideAgeBand): band is WideAgeBand =>
  WIDE_AGE_BANDS.some((wide) => wide === band);

/** A case among those that tell the same of their patients. */
export interface Grouped {
  /** Null where the case is withheld: it stands apart whatever is left out. */
  readonly told: Told | null;
  /** How many cases, this one included, tell the same; 0 where it is withheld. */
  readonly group: number;
}

/** A breed that fewer cases of the collection share is rare there and never told. Our own choice. Not a clinical number. */
const COMMON_BREED = 5;

/** What is told, step by step less. The procedure stays: title, closure and events of a case tell it anyway. */
const STEPS: readonly ((traits: Traits) => Told)[] = [
  ({ breed, ageBand }) => ({ breed, ageBand, sex: true }),
  ({ ageBand }) => ({ breed: null, ageBand, sex: true }),
  ({ ageBand }) => ({ breed: null, ageBand: wide(ageBand), sex: true }),
  () => ({ breed: null, ageBand: null, sex: true }),
  () => ({ breed: null, ageBand: null, sex: false }),
];

/**
 * For each case as much as at least `least` cases tell alike (k-anonymity over these traits: Sweeney 2002); a case that
 * stands apart at every step is withheld. The order of the cases does not matter.
 */
export function smallGroups<Name>(
  cases: ReadonlyMap<Name, Traits>,
  least: number,
): Map<Name, Grouped> {
  const bred = countOf([...cases.values()].map(breedIn));
  const commonly = [...cases].map(([name, traits]) => {
    const isCommon = (bred.get(breedIn(traits)) ?? 0) >= COMMON_BREED;
    return [name, isCommon ? traits : { ...traits, breed: '' }] as const;
  });
  const settled = new Map<Name, Grouped>();
  for (const step of STEPS) {
    const open = commonly.filter(([name]) => !settled.has(name));
    for (const group of alike(open, step)) {
      if (group.length < least) continue;
      // One spelling for all: by a letter of its own a case would stand apart again.
      const breed = group.map(([, traits]) => step(traits).breed?.trim() || null).sort()[0] ?? null;
      for (const [name, traits] of group) {
        settled.set(name, { told: { ...step(traits), breed }, group: group.length });
      }
    }
  }
  return new Map(
    commonly.map(([name]) => [name, settled.get(name) ?? { told: null, group: 0 }] as const),
  );
}

const breedIn = ({ species, breed }: Traits): string => JSON.stringify([species, plain(breed)]);

function countOf(all: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const one of all) counts.set(one, (counts.get(one) ?? 0) + 1);
  return counts;
}

const plain = (breed: string): string => breed.trim().toLowerCase().replace(/\s+/g, ' ');

function alike<Name>(
  cases: readonly (readonly [Name, Traits])[],
  step: (traits: Traits) => Told,
): (readonly (readonly [Name, Traits])[])[] {
  const groups = new Map<string, (readonly [Name, Traits])[]>();
  for (const one of cases) {
    const [, traits] = one;
    const { breed, ageBand, sex } = step(traits);
    const key = JSON.stringify([
      traits.species,
      breed === null ? '' : plain(breed),
      ageBand,
      sex ? traits.sex : null,
      traits.procedure,
      traits.region,
    ]);
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return [...groups.values()];
}

const wide = (band: AgeBand): WideAgeBand =>
  AGE_BANDS.indexOf(band) <= AGE_BANDS.indexOf('1 to 3') ? 'under 4' : '4 or more';
