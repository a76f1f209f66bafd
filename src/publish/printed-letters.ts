import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import { shortened } from '../record/refusal.js';
import type { Handout } from '../words/handout.js';
import { textOf } from '../words/handout-text.js';
import { demandGlyphs, MissingGlyph, named } from './fonts.js';
import type { LoadedCase } from './load-case.js';

/** Does something that needs printed letters; a character that they lack is a problem of the case. */
export async function inPrintedLetters<T>(
  { file }: Pick<LoadedCase, 'file'>,
  task: () => T | Promise<T>,
): Promise<Outcome<T>> {
  try {
    return good(await task());
  } catch (error) {
    if (!(error instanceof MissingGlyph)) throw error;
    return bad(unprintable(file, error));
  }
}

const unprintable = (file: string, { character, text }: MissingGlyph): Problem => ({
  kind: 'a character without a letter',
  file,
  found: `the character ${named(character)} in "${shortened(text, 200)}"`,
  expected: 'only characters that the printed letters have',
  mend: 'Look for that text in the files of the case, and write it without the character.',
});

/** Characters of a handout that no letter is there for, before anything is printed. */
export function lackingLetters(
  { file }: Pick<LoadedCase, 'file'>,
  { title, lead, sender, foot, blocks }: Handout,
): readonly Problem[] {
  const lines = [title, lead, ...sender, foot, ...textOf(blocks).split('\n')];
  try {
    // White space is set, not drawn.
    for (const line of lines) demandGlyphs('regular', line.replaceAll(/\s/g, ' '));
    return [];
  } catch (error) {
    if (!(error instanceof MissingGlyph)) throw error;
    return [unprintable(file, error)];
  }
}
