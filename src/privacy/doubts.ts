/** Something in a text that looks like an identifier, whether or not it is one of this case. */
export interface Doubt {
  /** In a few words. */
  readonly what: string;
  readonly text: string;
}

const ENGLISH =
  'January|February|March|April|May|June|July|August|September|October|November|December';
/** In capitals, too; in small letters "may 3" is no date. */
const MONTHS = `${ENGLISH}|${ENGLISH.toUpperCase()}`;
const MESES =
  'enero|febrero|marzo|abril|mayo|junio|julio|agosto|septiembre|octubre|noviembre|diciembre';
const STREETS =
  'Street|St|Lane|Ln|Road|Rd|Avenue|Ave|Row|Drive|Dr|Court|Ct|Way|Square|Boulevard|Blvd|Terrace|Place';

/**
 * Forms that identifiers have, after the list of 45 CFR 164.514(b)(2)(i); the first that fits a place names it. A count
 * of digits in them is not a clinical number.
 */
const FORMS: readonly (readonly [what: string, form: RegExp])[] = [
  [
    'an e-mail address',
    /(?<![\p{L}\p{N}._%+-])[\p{L}\p{N}._%+-]+@[\p{L}\p{N}-]+(?:\.[\p{L}\p{N}-]+)+/gu,
  ],
  ['a web address', /\b(?:https?:\/\/|www\.)\S+/giu],
  ['a network address', /(?<![\d.])\d{1,3}(?:\.\d{1,3}){3}(?![\d.])/gu],
  ['a number of 15 digits, as microchips have', /(?<!\d)\d(?:[ -]?\d){14}(?!\d)/gu],
  ['a date', /(?<!\d)\d{4}-\d{2}-\d{2}(?!\d)/gu],
  // Day and month need two digits somewhere, so that "1/2 tablet" is none.
  ['a date', /(?<![\d./])\d{1,2}[/.]\d{1,2}[/.](?:\d{4}|\d{2})(?![\d/])/gu],
  ['a date', /(?<![\d./])(?:[0-2]?\d|3[01])\/(?:0[1-9]|1[0-2])(?![\d/])/gu],
  [
    'a date',
    new RegExp(
      `(?<![\\p{L}\\d])(?:\\d{1,2}(?:st|nd|rd|th)?\\s+(?:of\\s+)?(?:${MONTHS})|(?:${MONTHS})\\s+\\d{1,4}(?:st|nd|rd|th)?)(?![\\p{L}\\d])`,
      'gu',
    ),
  ],
  [
    'a date',
    new RegExp(
      `(?<![\\p{L}\\d])(?:\\d{1,2}\\s+de\\s+(?:${MESES})|(?:${MESES})\\s+del?\\s+\\d{4})(?![\\p{L}\\d])`,
      'giu',
    ),
  ],
  [
    'an address',
    new RegExp(
      `(?<!\\d)\\d{1,5}\\s+(?:\\p{Lu}[\\p{L}'’-]+\\s+){1,3}(?:${STREETS})(?!\\p{L})`,
      'gu',
    ),
  ],
  [
    'an address',
    /(?<!\p{L})(?:Calle|Avenida|Avda\.?|Plaza|Paseo|Camino)\s+(?:de\s+|del\s+|la\s+)*\p{Lu}\p{L}+/gu,
  ],
  [
    'a telephone number',
    /(?<![\d.,])(?<!(?:IEC|ISO|EN|RFC) )\+?\d(?:[ ().-]{0,2}\d){6,14}(?![\d])/gu,
  ],
];

/** Everything of a text that has the form of an identifier, each place once. */
export function doubtsIn(text: string): Doubt[] {
  const taken: (readonly [number, number])[] = [];
  const doubts: Doubt[] = [];
  for (const [what, form] of FORMS) {
    for (const { 0: found, index } of text.matchAll(form)) {
      const end = index + found.length;
      if (taken.some(([from, to]) => index < to && end > from)) continue;
      taken.push([index, end]);
      doubts.push({ what, text: found });
    }
  }
  return doubts;
}

/** The exact weight in a text, where the public one is rounded. */
export function weightIn(text: string, kilograms: number, rounded: number): Doubt[] {
  if (kilograms === rounded) return [];
  const form = new RegExp(
    `(?<![\\d.,])${String(kilograms).replace('.', '[.,]')}\\s?kg(?!\\p{L})`,
    'gu',
  );
  return [...text.matchAll(form)].map(([found]) => ({
    what: 'the exact weight of the patient',
    text: found,
  }));
}
