// Codes of this encoding: not clinical numbers.

/** The 256 Braille patterns stand for the 256 values of a byte. */
const FIRST = 0x2800;

/**
 * Counts as text: the steps from sample to sample, zigzag and in groups of seven bits (LEB128), one character a byte.
 * Signs that no name is written with, so that a search for names cannot stumble over a curve.
 * @param counts whole numbers; NaN repeats the count before it
 */
export function writeCounts(counts: Iterable<number>): string {
  const characters: string[] = [];
  let last = 0;
  for (const count of counts) {
    const step = Number.isNaN(count) ? 0 : count - last;
    last += step;
    let rest = step < 0 ? -2 * step - 1 : 2 * step;
    while (rest > 127) {
      characters.push(String.fromCharCode(FIRST + (rest % 128) + 128));
      rest = Math.floor(rest / 128);
    }
    characters.push(String.fromCharCode(FIRST + rest));
  }
  return characters.join('');
}

/** The counts that `writeCounts` wrote. */
export function readCounts(text: string): number[] {
  const counts: number[] = [];
  let last = 0;
  let rest = 0;
  let place = 1;
  for (let index = 0; index < text.length; index++) {
    const byte = text.charCodeAt(index) - FIRST;
    rest += (byte % 128) * place;
    place *= 128;
    if (byte < 128) {
      last += rest % 2 === 1 ? -(rest + 1) / 2 : rest / 2;
      counts.push(last);
      rest = 0;
      place = 1;
    }
  }
  return counts;
}
