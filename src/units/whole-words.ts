/**
 * Finds any of these words where it stands by itself, in capitals or not. `\b` knows no letter beyond a to z: after the é
 * of "periné" it sees no end of a word.
 * @param words patterns without groups that capture, with a stroke between them
 */
export const wholeWords = (words: string): RegExp =>
  new RegExp(`(?<![\\p{L}\\p{M}])(?:${words})(?![\\p{L}\\p{M}])`, 'iu');
