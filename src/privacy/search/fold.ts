// Choices of the method and codes of file formats: not clinical numbers.

/** A character between words. */
export const GAP = 0;
/** A character that no reader sees, or an accent of its own: passed over. */
export const UNSEEN = 1;
/** A character that stands for several letters, as a ligature does: see `lettersOf`. */
export const SEVERAL = 2;

/** Letters that Unicode does not take apart, as people write them without their marks. */
const BARE: Readonly<Record<string, string>> = {
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
  ø: 'o',
  ł: 'l',
  đ: 'd',
  ð: 'd',
  þ: 'th',
  ı: 'i',
};

/** Lower-case letters and digits of a text without accents; whatever is neither is left out. */
export function lettersOf(text: string): number[] {
  const plain = text
    .normalize('NFKD')
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[ßæœøłđðþı]/g, (letter) => BARE[letter] as string);
  return [...plain]
    .filter((letter) => /[\p{L}\p{N}]/u.test(letter))
    .map((letter) => letter.codePointAt(0) as number);
}

/** How each character of the basic plane is read: the letter or digit that it counts as, or one of the three above. */
export const FOLD = new Uint16Array(0x10000);
/** 1 for a capital letter. */
export const CAPITAL = new Uint8Array(0x10000);

for (let code = 0; code < 0x10000; code++) {
  if (code >= 0xd800 && code < 0xe000) continue;
  const character = String.fromCharCode(code);
  FOLD[code] = foldOf(character);
  if (character !== character.toLowerCase()) CAPITAL[code] = 1;
}

/** The same for a character beyond the basic plane. */
export const foldHigh = (code: number): number => foldOf(String.fromCodePoint(code));

/** The letters of a character that stands for several. */
export function severalOf(code: number): readonly number[] {
  const known = several.get(code);
  if (known) return known;
  const letters = lettersOf(String.fromCodePoint(code));
  several.set(code, letters);
  return letters;
}

/** What has been worked out once: a pure function's memory. */
const several = new Map<number, readonly number[]>();

function foldOf(character: string): number {
  if (/[\p{M}\p{Cf}]/u.test(character)) return UNSEEN;
  const letters = lettersOf(character);
  if (letters.length === 0) return GAP;
  return letters.length === 1 ? (letters[0] as number) : SEVERAL;
}
