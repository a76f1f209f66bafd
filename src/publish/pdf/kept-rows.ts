/** Sizes in points: the height that a page has for rows, and that of a line of text. */
export interface RowRoom {
  readonly page: number;
  readonly line: number;
}

/**
 * Which rows of a table must have the next one on their page, from their heights in points.
 * A short table stays whole. A long one runs on with at least three rows on either side, since a row or two under
 * repeated titles look like a mistake; tall rows part anywhere, or they would leave a page half empty.
 */
export function rowsKeptWithNext(heights: readonly number[], { page, line }: RowRoom): boolean[] {
  const isLittle = (some: readonly number[]) =>
    some.reduce((sum, height) => sum + height, 0) < page * 0.2;
  const last = heights.length - 1;
  const isShort = !heights.some((height) => height > 4 * line) && isLittle(heights);
  const isLong = heights.length > 5;
  const begins = (i: number) => i < 2 && isLittle(heights.slice(0, i + 2));
  const ends = (i: number) => i >= last - 2 && isLittle(heights.slice(i));
  return heights.map((_, i) => i < last && (isShort || (isLong && (begins(i) || ends(i)))));
}
