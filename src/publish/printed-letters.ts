import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import { shortened } from '../record/refusal.js';
import type { Handout } from '../words/handout.js';
import { textOf } from '../words/handout-text.js';
import { demandGlyphs, MissingGlyph, named } from './fonts.js';
import type { LoadedCase } from './load-case.js';

/** What tells where a character comes from. */
type Recorded = Pick<LoadedCase, 'file' | 'rare'>;

/** Does something that needs printed letters; a character that they lack is a problem of the case. */
export async function inPrintedLetters<T>(
  loaded: Recorded,
  task: () => T | Promise<T>,
): Promise<Outcome<T>> {
  try {
    return good(await task());
  } catch (error) {
    if (!(error instanceof MissingGlyph)) throw error;
    return bad(unprintable(loaded, error));
  }
}

/** Told where the record has the character; from another file it is told by its text. */
function unprintable({ file, rare }: Recorded, { character, text }: MissingGlyph): Problem {
  const { character: _, ...place } = rare.find((one) => one.character === character) ?? {
    character,
    file,
  };
  return {
    kind: 'a character without a letter',
    ...place,
    found: `the character ${named(character)} in "${shortened(text, 200)}"`,
    expected: 'only characters that the printed letters have: those of Latin writing',
    mend:
      'line' in place
        ? 'Write the word in Latin letters.'
        : 'Look for that text in the files of the case and the clinic, and write it in Latin letters.',
  };
}

/** Characters of a handout that no letter is there for, before anything is printed. */
export function lackingLetters(
  loaded: Recorded,
  { title, lead, sender, foot, blocks }: Handout,
): readonly Problem[] {
  const lines = [title, lead, ...sender, foot, ...textOf(blocks).split('\n')];
  try {
    // White space is set, not drawn.
    for (const line of lines) demandGlyphs('regular', line.replaceAll(/\s/g, ' '));
    return [];
  } catch (error) {
    if (!(error instanceof MissingGlyph)) throw error;
    return [unprintable(loaded, error)];
  }
}
