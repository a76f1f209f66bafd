import { createHmac } from 'node:crypto';
import { inLetters } from '../privacy/letters.js';
import type { Clinic } from '../record/clinic-schema.js';

const LENGTH = 16;

/**
 * Name of a case's calendar file where the clinic puts it online, without ending: 80 bits of an HMAC (RFC 2104) of the
 * record number under the clinic's secret. It names nobody, stays the same from revision to revision, and whoever does
 * not know the secret cannot get from a record number, or from one owner's address, to another's.
 */
export function calendarName(record: string, secret: string): string {
  return inLetters(createHmac('sha256', secret).update(record).digest(), LENGTH);
}

/** Where the owner finds the calendar file of a case; null where the clinic puts none online. */
export function calendarAddress(record: string, clinic: Clinic): string | null {
  const online = clinic['calendars online'];
  return online ? `${online.at}/${calendarName(record, online.secret)}.ics` : null;
}
