import { ABBREVIATIONS, EPONYMS } from '../common-words.js';
import type { Doubt } from '../doubts.js';
import type { OwnText } from '../own-text.js';
import { placesIn } from '../places.js';
import { apart, type Form } from './form.js';

/** Forms of address in either language, with or without a stop. */
export const TITLES =
  'Mr|Mrs|Ms|Miss|Mx|Dr|Dra|Sr|Sra|Srta|Don|Doña|Prof|Profe|Doctor|Doctora|Professor|Profesora?|Nurse|Sister|Señora?|Señorita';

/** Nothing that goes on with a digit, as SpO2 does. */
const NAME = "\\p{Lu}[\\p{L}\\p{M}'’-]*(?![\\p{L}\\p{N}])";

/** Names by what stands before them. A count in it is not a clinical number. */
export const OF_PEOPLE: readonly Form[] = [
  [
    'the name of a person',
    new RegExp(`(?<!\\p{L})(?:${TITLES})\\.?\\s+${NAME}(?:\\s+${NAME})?`, 'gu'),
  ],
  ['the name of a person', /(?<![\p{L}\p{N}.])(?:\p{Lu}\.\s?){1,3}\p{Lu}\p{Ll}[\p{L}\p{M}'’-]+/gu],
  ['initials', /(?<![\p{L}\p{N}.])(?:\p{Lu}\.\s?){2,4}(?!\p{L})/gu],
];

/** A capital letter within a sentence. Whether it is one is asked first, as most letters are none. */
const WITHIN = new RegExp(
  `(?=\\p{Lu})(?<=[\\p{L}\\p{N}\\p{M},;:)"'’“(–—-]\\s{1,8}["“(¿¡*_]{0,4})${NAME}`,
  'gu',
);
/** A word with which a line or sentence begins, where it says or asks something, or is told of. */
const SPEAKS =
  'asks?|asked|says?|said|wants?|wanted|wonders?|wondered|writes?|wrote|thinks?|thought|noted|notes|pregunta|preguntó|dice|dijo|quiere|quería|quiso|opina|comenta|comentó|cree';
const BEGINS = new RegExp(
  `(?=\\p{Lu})(?<=^[\\s#>*_"“¿¡-]{0,12}|[.!?]\\s{1,8}["“¿¡]{0,4})${NAME}(?=\\s+${NAME}|\\*{0,2}\\s*[(:]|,?\\s+(?:${SPEAKS})(?!\\p{L}))`,
  'gmu',
);

/**
 * Words that are written as names and stand in none of our own texts: people, towns, schools, nicknames, breeds. Where
 * most words have a capital letter, as in some titles, a capital says nothing.
 */
export function namesIn(text: string, own: OwnText): Doubt[] {
  const long = text.match(/\p{L}{4,}/gu) ?? [];
  const isTitled =
    long.length > 1 && 2 * long.filter((word) => /^\p{Lu}/u.test(word)).length > long.length;
  if (isTitled) return [];
  const isName = (found: string): boolean =>
    found
      .replace(/['’]s?$/u, '')
      .split(/['’-]/u)
      .filter((part) => part.length > 1 && /^\p{Lu}/u.test(part))
      .map((part) => part.toLowerCase())
      .some((part) => !own.has(part) && !EPONYMS.has(part)) &&
    // What is written in capitals throughout is an abbreviation.
    !/^[\p{Lu}\p{N}-]{1,5}s?$/u.test(found);
  return [...placesIn(text, WITHIN), ...placesIn(text, BEGINS)]
    .filter(([found]) => isName(found))
    .map(({ 0: found, index }) => ({
      what: 'the name of a person or a place',
      text: found,
      index,
    }));
}

/** What may be initials. */
const CAPITALS = apart('\\p{Lu}{2,4}');

/**
 * The initials of people, as a team writes them into a record: "AQ" or "A. Q.". Abbreviations of the trade are passed over.
 * @param people whole names
 */
export function initialsIn(text: string, people: readonly string[]): Doubt[] {
  const found = placesIn(text, CAPITALS);
  if (found.length === 0) return [];
  const initials = new Set(
    people.map(initialsOf).filter((letters) => letters.length >= 2 && !ABBREVIATIONS.has(letters)),
  );
  return found
    .filter(([letters]) => initials.has(letters))
    .map(({ 0: letters, index }) => ({
      what: 'the initials of somebody of the case',
      text: letters,
      index,
    }));
}

const TITLE = new RegExp(`^(?:${TITLES})\\.?\\s+`, 'u');

const initialsOf = (name: string): string =>
  (name.replace(TITLE, '').match(/(?<!\p{L})\p{Lu}/gu) ?? []).join('');
