import type { Place } from '../record/problem.js';

/** The first place of a character in a record. */
export interface RareCharacter extends Required<Pick<Place, 'file' | 'line' | 'column'>> {
  readonly character: string;
}

/** The last character of Latin writing as Unicode has it in one piece (block Latin Extended-B). */
const LAST_LATIN = 0x24f;

/** Characters of other writing in a text, each at its first place. */
export function rareIn(text: string, file: string): RareCharacter[] {
  const found = new Map<string, RareCharacter>();
  for (const [index, line] of text.split('\n').entries()) {
    let column = 1;
    for (const character of line) {
      if ((character.codePointAt(0) as number) > LAST_LATIN && !found.has(character)) {
        found.set(character, { character, file, line: index + 1, column });
      }
      column += character.length;
    }
  }
  return [...found.values()];
}
