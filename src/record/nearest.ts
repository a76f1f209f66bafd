/** The candidate closest in spelling to a word, or null when none is close enough to be meant. */
export function nearest(word: string, candidates: readonly string[]): string | null {
  const limit = Math.max(1, Math.floor(word.length / 3));
  let best: string | null = null;
  let least = limit + 1;
  for (const candidate of candidates) {
    const distance = edits(word.toLowerCase(), candidate.toLowerCase());
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

/** Levenshtein distance: the fewest single-letter insertions, deletions and substitutions. */
function edits(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i++) {
    const next = [i];
    for (let j = 1; j <= to.length; j++) {
      const swap = (row[j - 1] as number) + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(swap, (row[j] as number) + 1, (next[j - 1] as number) + 1));
    }
    row = next;
  }
  return row[to.length] as number;
}
