/** The candidate closest in spelling to a word, or null when none is close enough to be meant. */
export function nearest(word: string, candidates: readonly string[]): string | null {
  const limit = Math.max(1, Math.floor(word.length / 3));
  let best: string | null = null;
  let least = limit + 1;
  const given = word.toLowerCase();
  for (const candidate of candidates) {
    const meant = candidate.toLowerCase();
    // Every letter more or less is an edit of its own.
    if (Math.abs(given.length - meant.length) >= least) continue;
    const distance = edits(given, meant);
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

/** The fewest insertions, deletions and substitutions of a letter and exchanges of two neighbours (optimal string alignment). */
function edits(from: string, to: string): number {
  let above: number[] = [];
  let row = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i++) {
    const next = [i];
    for (let j = 1; j <= to.length; j++) {
      const swap = (row[j - 1] as number) + (from[i - 1] === to[j - 1] ? 0 : 1);
      const crossed = from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1];
      const exchange = crossed ? (above[j - 2] as number) + 1 : swap;
      next.push(Math.min(swap, exchange, (next[j - 1] as number) + 1, (row[j] as number) + 1));
    }
    above = row;
    row = next;
  }
  return row[to.length] as number;
}
