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
  if (/^[a-z\d]*$/.test(text)) return Array.from(text, (letter) => letter.charCodeAt(0));
  const plain = text
    .normalize('NFKD')
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[ßæœøłđðþı]/g, (letter) => BARE[letter] as string);
  return [...plain]
    .filter((letter) => /[\p{L}\p{N}]/u.test(letter))
    .map((letter) => letter.codePointAt(0) as number);
}

/** What has been worked out once: the memory of pure functions. */
const several = new Map<number, readonly number[]>();
const high = new Int32Array(0x100000).fill(-1);

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
export function foldHigh(code: number): number {
  const known = high[code - 0x10000] as number;
  if (known >= 0) return known;
  const folded = foldOf(String.fromCodePoint(code));
  high[code - 0x10000] = folded;
  return folded;
}

/** The letters of a character that stands for several. */
export const severalOf = (code: number): readonly number[] => several.get(code) ?? [];

function foldOf(character: string): number {
  if (/[\p{M}\p{Cf}]/u.test(character)) return UNSEEN;
  const letters = lettersOf(character);
  if (letters.length === 0) return GAP;
  if (letters.length === 1) return letters[0] as number;
  several.set(character.codePointAt(0) as number, letters);
  return SEVERAL;
}
