import { Temporal } from 'temporal-polyfill';
import { inLetters } from './letters.js';
import type { Told } from './small-groups.js';
import { SHORT_MONTHS } from './written-days.js';

/** A keyed hash of a text, 32 bytes; the label keeps its uses apart. Who lacks the key cannot compute it. */
export type KeyedHash = (label: string, text: string) => Uint8Array;

/** What stands in public for the number and the dates of a case. */
export interface Veil {
  /** 80 bits of the keyed hash of the record number, 16 digits and letters. */
  readonly pseudonym: string;
  /** Whole weeks that every date of the case is moved by. */
  readonly weeks: number;
  /** A region no smaller than a state, as the clinic tells it; null where it tells none. */
  readonly region: string | null;
  /** As much of the patient as enough other cases tell alike. */
  readonly told: Told;
  /** An author's own words as they may be public. */
  readonly say: (text: string) => string;
}

/** 80 bits, five to a letter; not a clinical number. */
const PSEUDONYM_LETTERS = 16;

/**
 * Dates move into the next century, by 100 to 200 years: so far that nobody takes one for true, and none can fall on a
 * true date of another case. Whole weeks keep the day of the week. Our own choice, after common practice for open
 * intensive-care data; not a clinical number.
 */
const LEAST_WEEKS = 5218;
/** Not a clinical number. */
const MOST_WEEKS = 10_435;

/** The same record number under the same key always gives the same pseudonym and the same weeks. */
export function veilOf(record: string, hash: KeyedHash): Pick<Veil, 'pseudonym' | 'weeks'> {
  const digest = hash('date offset', record);
  // 48 of the 256 bits: over 5,218 values the remainder favours none by more than one in 10 to the 10.
  const number = digest.slice(0, 6).reduce((sum, byte) => sum * 256 + byte, 0);
  return {
    pseudonym: pseudonymOf(record, hash),
    weeks: LEAST_WEEKS + (number % (MOST_WEEKS - LEAST_WEEKS + 1)),
  };
}

/**
 * The first of some names that holds no month: `83jan7` in the middle of one reads as a day, of which the search for
 * identifiers would be right to complain. One record in 150 gets its second name.
 */
function pseudonymOf(record: string, hash: KeyedHash): string {
  for (let turn = 0; ; turn++) {
    const text = turn === 0 ? record : `${record}\0${turn}`;
    const pseudonym = inLetters(hash('pseudonym', text), PSEUDONYM_LETTERS);
    if (!SHORT_MONTHS.some((month) => pseudonym.includes(month))) return pseudonym;
  }
}

/** A day or a local time, `YYYY-MM-DD` or `YYYY-MM-DDTHH:MM`, moved by whole weeks; the clock keeps its time of day. */
export function shifted(written: string, weeks: number): string {
  return written.includes('T')
    ? Temporal.PlainDateTime.from(written).add({ weeks }).toString({ smallestUnit: 'minute' })
    : Temporal.PlainDate.from(written).add({ weeks }).toString();
}
