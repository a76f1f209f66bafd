/** The part of fontkit that is used here; the package brings no types of its own. */
declare module 'fontkit' {
  export interface GlyphRun {
    /** In units of the face. */
    readonly advanceWidth: number;
  }

  export interface Font {
    readonly unitsPerEm: number;
    /** Every code point that the face can draw. */
    readonly characterSet: readonly number[];
    glyphForCodePoint(codePoint: number): object;
    layout(text: string, features?: readonly string[]): GlyphRun;
    createSubset(): object;
  }

  export function openSync(file: string): Font;
}
