// Choices of the method and codes of file formats: not clinical numbers.

import { ALSO_A_WORD, TELL_NOBODY } from '../common-words.js';
import { type WrittenDay, writtenDays } from '../written-days.js';
import { lettersOf } from './fold.js';

/**
 * A way in which an identifier may be written, as letters and digits without what stands between them.
 *
 * - `name`: whole words, up to three other characters between them, or each letter apart by itself
 * - `number`: digits in any plausible grouping
 * - `figures`, `short year`, `compact`: a day in digits
 * - `joined`: nothing between
 */
export interface Spelling {
  readonly letters: readonly number[];
  readonly shape: 'name' | 'number' | 'joined' | Exclude<WrittenDay['as'], 'words'>;
  /** Where each part after the first begins. */
  readonly joints: readonly number[];
  /** Letters that must be capitals. */
  readonly capitals: readonly number[];
  /** A single word that is seldom a name: see `common-words.ts`. */
  readonly word: string | null;
}

/** Longer identifiers are sought by their beginning. */
const LONGEST = 300;
/** Fewer digits are a count or a minute as easily as a record's number. */
const FEWEST_DIGITS = 5;
const BEFORE_A_NUMBER = [
  ['record'],
  ['case'],
  ['no'],
  ['nr'],
  ['number'],
  ['chart'],
  ['file'],
  ['caso'],
  ['expediente'],
  ['ficha'],
  ['historia'],
  ['número'],
];

/** Every way in which a text may be written: see `Spelling`. */
export function spellingsOf(text: string): Spelling[] {
  const day = /^(\d{4}-\d{2}-\d{2})(T[\d:]+)?$/.exec(text.trim())?.[1];
  if (day !== undefined) {
    return writtenDays(day).map(({ parts, as, capital }) =>
      spelled(parts, as === 'words' ? 'name' : as, capital, lettersOfDay),
    );
  }
  const digits = text.normalize('NFKC').replace(/\D/gu, '');
  if (digits !== '' && !/\p{L}/u.test(text)) return numbers(text.normalize('NFKC'), digits);
  const short = shortNumber(text);
  if (short) return BEFORE_A_NUMBER.map((before) => spelled([...before, ...short], 'name'));
  const spellings = new Set([text, ...unmarked(text)]);
  return [...spellings].flatMap((each) => names(each));
}

/** More letters and digits are seldom a step of a drawing. */
const SHORTEST = 4;

/** The parts of a number such as `M-2` or `A12`, which each drawing writes for a line; null of a name such as `K9`. */
function shortNumber(text: string): readonly string[] | null {
  const parts = text.match(/[\p{L}\p{N}\p{M}]+/gu) ?? [];
  const signs = parts.join('');
  const digits = signs.replace(/\D/gu, '').length;
  const isNumber = digits > 1 || (digits === 1 && parts.length > 1);
  return isNumber && [...signs].length < SHORTEST ? parts : null;
}

function numbers(text: string, digits: string): Spelling[] {
  if (digits.length < FEWEST_DIGITS) {
    return BEFORE_A_NUMBER.map((before) => spelled([...before, digits], 'name'));
  }
  const parts = text.match(/\d+/gu) as string[];
  const ways = [spelled(parts, 'number')];
  if (/^\s*(\+|00)/.test(text) && parts.length > 1) {
    // The number as it is dialled within its country.
    const national = parts.slice(1);
    ways.push(
      spelled(national, 'number'),
      spelled([`0${national[0]}`, ...national.slice(1)], 'number'),
    );
  }
  if (digits.length >= 7) ways.push(spelled([[...digits].reverse().join('')], 'joined'));
  return [...ways, ...(digits.length === 15 ? transponder(digits) : [])];
}

/**
 * A microchip number as a reader may give it in hexadecimal: as one number, or as the 10 bits of the country and the 38
 * bits of the animal (ISO 11784; layout from memory, unverified).
 */
function transponder(digits: string): Spelling[] {
  const code = (BigInt(digits.slice(0, 3)) << 38n) | BigInt(digits.slice(3));
  const asOne = BigInt(digits).toString(16);
  const asCode = code.toString(16).padStart(12, '0').slice(-12);
  return [asOne, asCode, `8000${asCode}`].map((hex) =>
    spelled(hex.match(/^.(?=(?:..)*$)|../g) as string[], 'name'),
  );
}

function names(text: string): Spelling[] {
  const parts = text.match(/[\p{L}\p{N}\p{M}]+/gu) ?? [];
  if (parts.length === 0) return [];
  const telling = (part: string) => {
    const bare = part.toLowerCase();
    return !TELL_NOBODY.has(bare) && !mayBeAWord(bare) && !/^\d+$/.test(bare);
  };
  const capital = parts.some(telling)
    ? []
    : parts.flatMap((part, place) => (mayBeAWord(part.toLowerCase()) ? [place] : []));
  const whole = spelled(parts, 'name', capital);
  const [only] = parts;
  const turned =
    whole.letters.length >= 6 && capital.length === 0
      ? [{ ...spelled(parts, 'joined'), letters: [...whole.letters].reverse() }]
      : [];
  return [
    parts.length === 1 ? { ...whole, word: (only as string).toLowerCase() } : whole,
    ...turned.filter(({ letters }) => letters.join() !== whole.letters.join()),
  ];
}

/** Short words and ordinary ones, in letters that have capitals. */
const mayBeAWord = (word: string) =>
  word !== word.toUpperCase() && (ALSO_A_WORD.has(word) || [...word].length <= 3);

/** A name with its umlauts written out. */
function unmarked(text: string): string[] {
  const out: Readonly<Record<string, string>> = { ä: 'ae', ö: 'oe', ü: 'ue', å: 'aa', ø: 'oe' };
  const written = text
    .normalize('NFC')
    .toLowerCase()
    .replace(/[äöüåø]/g, (letter) => out[letter] as string);
  return written === text.normalize('NFC').toLowerCase() ? [] : [written];
}

function spelled(
  parts: readonly string[],
  shape: Spelling['shape'],
  capital: readonly number[] = [],
  lettersIn: (part: string) => readonly number[] = lettersOf,
): Spelling {
  const letters: number[] = [];
  const begins: number[] = [];
  for (const part of parts) {
    begins.push(letters.length);
    letters.push(...lettersIn(part));
  }
  return {
    letters: letters.slice(0, LONGEST),
    shape,
    joints: begins.slice(1).filter((joint) => joint > 0 && joint < LONGEST),
    capitals: capital.map((part) => begins[part] as number),
    word: null,
  };
}

/** Days are written with the same few words and figures: of every day of four years, 5000. */
const ofDays = new Map<string, readonly number[]>();
const MOST_OF_DAYS = 20_000;

function lettersOfDay(part: string): readonly number[] {
  const before = ofDays.get(part);
  if (before) return before;
  if (ofDays.size >= MOST_OF_DAYS) ofDays.clear();
  const letters = lettersOf(part);
  ofDays.set(part, letters);
  return letters;
}
