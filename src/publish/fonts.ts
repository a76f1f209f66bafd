import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { charactersOf } from './font-characters.js';

const require = createRequire(import.meta.url);
const ttf = (family: 'next' | 'mono', cut: string) => {
  const name = family === 'next' ? 'AtkinsonHyperlegibleNext' : 'AtkinsonHyperlegibleMono';
  return require.resolve(
    `@expo-google-fonts/atkinson-hyperlegible-${family}/${cut}/${name}_${cut}.ttf`,
  );
};

/** Where each face lies. No face of the machine is ever used. */
export const faces = {
  regular: ttf('next', '400Regular'),
  italic: ttf('next', '400Regular_Italic'),
  bold: ttf('next', '700Bold'),
  boldItalic: ttf('next', '700Bold_Italic'),
  mono: ttf('mono', '400Regular'),
  monoBold: ttf('mono', '700Bold'),
} as const;

export type Face = keyof typeof faces;

/** A text with a character that a face cannot draw. */
export class MissingGlyph extends Error {
  constructor(
    face: Face,
    readonly character: string,
    readonly text: string,
  ) {
    super(`the ${face} face has no glyph for ${named(character)} in ${JSON.stringify(text)}`);
  }
}

/** `"→" (U+2192)` */
export function named(character: string): string {
  const code = (character.codePointAt(0) as number).toString(16).toUpperCase();
  return `${JSON.stringify(character)} (U+${code.padStart(4, '0')})`;
}

const known = new Map<Face, ReadonlySet<number>>();

/**
 * Stops the build when a face lacks a character: a missing glyph would print as an empty box,
 * and an empty box in a dose is dangerous.
 */
export function demandGlyphs(face: Face, text: string): void {
  let characters = known.get(face);
  if (!characters) {
    characters = charactersOf(readFileSync(faces[face]));
    known.set(face, characters);
  }
  for (const character of text) {
    if (!characters.has(character.codePointAt(0) as number)) {
      throw new MissingGlyph(face, character, text);
    }
  }
}
