import type { DrugClass } from '../record/formulary-schema.js';
import type { Drain, Species } from '../record/vocabulary.js';
import type { SkinStitches } from './wound.js';

/** How soon the owner has to call. */
const RANKS = ['now', 'today', 'visit'] as const;
/** How soon the owner is to call, the most urgent first. */
export type Rank = (typeof RANKS)[number];

/** What a warning sign belongs to; content/ ranks the signs of each. The procedure has its signs of its own. */
export const SIGN_TOPICS = [
  'anyone',
  'joined',
  'opening',
  'dog',
  'cat',
  'rabbit',
  'ferret',
  'stitches',
  'staples',
  'open',
  'bare',
  'mouth',
  'drain',
  'collar',
  'no collar',
  'medicine',
  'as needed',
  'NSAID',
  'NSAID in a rabbit',
  'opioid',
  'antibiotic',
  'other',
] as const;
/** What a group of warning signs belongs to. */
export type SignTopic = (typeof SIGN_TOPICS)[number];

/** What decides which signs a sheet names. */
export interface SignsInput {
  readonly species: Species;
  readonly skin: SkinStitches;
  readonly staples: boolean;
  readonly open: boolean;
  /** Whether an open wound goes home without a bandage. */
  readonly bare?: boolean;
  readonly inMouth?: boolean;
  /** Whether the edges are joined around an opening that is meant to stay. */
  readonly opening?: boolean;
  readonly drain: Drain | null;
  readonly collar: boolean;
  /** The class of each medicine for home; null where nothing tells it. */
  readonly classes: readonly (DrugClass | null)[];
  /** Whether one of them is given only as needed. */
  readonly asNeeded?: boolean;
}

/** The topics of a case in the order in which their signs are told: what threatens life first. */
export function signTopics(input: SignsInput): SignTopic[] {
  const { skin, classes, bare = false, inMouth = false, asNeeded = false, opening = false } = input;
  const holds: Readonly<Record<SignTopic, boolean>> = {
    anyone: true,
    joined: !input.open && !inMouth && !opening,
    opening,
    dog: input.species === 'dog',
    cat: input.species === 'cat',
    rabbit: input.species === 'rabbit',
    ferret: input.species === 'ferret',
    stitches:
      (skin.kind === 'remove' && !input.staples) ||
      (skin.kind === 'dissolve' && !skin.hidden && !inMouth),
    staples: skin.kind === 'remove' && input.staples,
    open: input.open && !bare && !inMouth,
    bare: input.open && bare && !inMouth,
    mouth: inMouth,
    drain: input.drain !== null,
    collar: input.collar,
    'no collar': !input.collar && !inMouth,
    medicine: classes.length > 0,
    'as needed': asNeeded,
    // A rabbit cannot vomit.
    NSAID: classes.includes('NSAID') && input.species !== 'rabbit',
    'NSAID in a rabbit': classes.includes('NSAID') && input.species === 'rabbit',
    opioid: classes.includes('opioid'),
    antibiotic: classes.includes('antibiotic'),
    other: true,
  };
  return SIGN_TOPICS.filter((topic) => holds[topic]);
}
