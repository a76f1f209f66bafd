/** Noise falls with the root of the number of beats averaged; 16 beats cut it to a quarter. */
const usual = 16;

/** Up to 16 neighbouring beats of one family, marked together by their average. */
export interface Group {
  /** Places in the list of beats, ascending. */
  readonly members: readonly number[];
  /** Grid positions at which the members lie over each other. */
  readonly positions: readonly number[];
}

/**
 * A family cut into runs of neighbours of about equal length, of at most `most`. P and T follow the
 * rate, so 16 beats share them; the QRS hardly changes, so more may be averaged.
 */
export function groupsOf({ members, positions }: Group, most: number = usual): Group[] {
  const count = Math.ceil(members.length / most);
  return Array.from({ length: count }, (_, k) => {
    const from = Math.round((k * members.length) / count);
    const to = Math.round(((k + 1) * members.length) / count);
    return { members: members.slice(from, to), positions: positions.slice(from, to) };
  });
}
