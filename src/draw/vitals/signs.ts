// What an eye tells apart on paper, in CSS px: not clinical numbers.

/** Signs nearer to each other than this run into one band. */
const CROWDED = 4;
/** Then so far apart they still tell one line from the others. */
const APART = 24;

/** A reading as far as its sign asks: where it stands on the paper, CSS px, and whether anything was read. */
interface Placed {
  readonly x: number;
  readonly isRead: boolean;
}

/**
 * Which readings bear the sign of their line: all where they stand apart; of a monitor that writes each second one from
 * time to time, and each that no line leads to. `readings` in order of time.
 */
export function signed(readings: readonly Placed[]): boolean[] {
  const read = readings.filter(({ isRead }) => isRead);
  const room = (read.at(-1)?.x ?? 0) - (read[0]?.x ?? 0);
  if (room >= CROWDED * (read.length - 1)) return readings.map(({ isRead }) => isRead);
  let last = Number.NEGATIVE_INFINITY;
  return readings.map(({ x, isRead }, index) => {
    const isAlone = !readings[index - 1]?.isRead && !readings[index + 1]?.isRead;
    if (!isRead || (x - last < APART && !isAlone)) return false;
    last = x;
    return true;
  });
}
