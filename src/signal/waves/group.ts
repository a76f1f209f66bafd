import type { Family } from './families.js';

/** Noise falls with the root of the number of beats averaged; 16 beats cut it to a quarter. */
const usual = 16;

/** Up to 16 neighbouring beats of one family, marked together by their average. */
export interface Group {
  /** Places in the list of beats, ascending. */
  readonly members: readonly number[];
  /** Grid positions at which the members lie over each other. */
  readonly positions: readonly number[];
}

/** A family cut into runs of neighbours of about equal length. */
export function groupsOf({ members, positions }: Family): Group[] {
  const count = Math.ceil(members.length / usual);
  return Array.from({ length: count }, (_, k) => {
    const from = Math.round((k * members.length) / count);
    const to = Math.round(((k + 1) * members.length) / count);
    return { members: members.slice(from, to), positions: positions.slice(from, to) };
  });
}
