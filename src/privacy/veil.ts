import { Temporal } from 'temporal-polyfill';
import { inSyllables } from './letters.js';
import type { Told } from './small-groups.js';

/** A keyed hash of a text, 32 bytes; the label keeps its uses apart. Who lacks the key cannot compute it. */
export type KeyedHash = (label: string, text: string) => Uint8Array;

/** What stands in public for the number and the dates of a case. */
export interface Veil {
  /** Letters and digits for the keyed hash of the record number: `inSyllables`. */
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

/** 73 bits. Not a clinical number. */
const PSEUDONYM_SYLLABLES = 6;

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
    pseudonym: inSyllables(hash('pseudonym', record), PSEUDONYM_SYLLABLES),
    weeks: LEAST_WEEKS + (number % (MOST_WEEKS - LEAST_WEEKS + 1)),
  };
}

/** A day or a local time, `YYYY-MM-DD` or `YYYY-MM-DDTHH:MM`, moved by whole weeks; the clock keeps its time of day. */
export function shifted(written: string, weeks: number): string {
  return written.includes('T')
    ? Temporal.PlainDateTime.from(written).add({ weeks }).toString({ smallestUnit: 'minute' })
    : Temporal.PlainDate.from(written).add({ weeks }).toString();
}
