import { createHash } from 'node:crypto';
import { Temporal } from 'temporal-polyfill';
import type { CalendarEntry } from '../words/owner/calendar-entries.js';
import { type Observance, observances } from './time-zone-rules.js';

/** What a calendar file tells beside its entries. */
export interface CalendarHead {
  /** Tells the case from every other; only its digest goes into the file. */
  readonly seed: readonly string[];
  readonly timeZone: string;
  /** BCP 47 tag of the entries' language. */
  readonly language: string;
  /** Grows with every revision, so that a later file replaces what an earlier one said. */
  readonly sequence: number;
  /** The day of the revision by the record, `YYYY-MM-DD`. */
  readonly revised: string;
}

/**
 * Entries as an iCalendar file (RFC 5545) in UTF-8. The same entries give the same bytes; an entry keeps its identity
 * from revision to revision, so that importing a later file changes what a phone holds and doubles nothing.
 */
export function printCalendar(entries: readonly CalendarEntry[], head: CalendarHead): Uint8Array {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    `PRODID:-//thrice//discharge sheet//${head.language.toUpperCase()}`,
    'CALSCALE:GREGORIAN',
    ...timeZoneLines(entries, head.timeZone),
    ...entries.flatMap((entry) => eventLines(entry, head)),
    'END:VCALENDAR',
  ];
  return new TextEncoder().encode(lines.map((line) => `${folded(line)}\r\n`).join(''));
}

function eventLines(entry: CalendarEntry, head: CalendarHead): string[] {
  return [
    'BEGIN:VEVENT',
    `UID:${identifier([...head.seed, entry.key])}`,
    `DTSTAMP:${compact(head.revised)}T000000Z`,
    `SEQUENCE:${head.sequence}`,
    `DTSTART${startOf(entry.on, head.timeZone)}`,
    `SUMMARY:${escaped(entry.title)}`,
    `DESCRIPTION:${escaped(entry.details)}`,
    // The owner can do other things on these days: nothing here makes anybody busy.
    'TRANSP:TRANSPARENT',
    'CLASS:PRIVATE',
    `STATUS:${entry.cancelled ? 'CANCELLED' : 'CONFIRMED'}`,
    ...(entry.alarm === null
      ? []
      : [
          'BEGIN:VALARM',
          'ACTION:DISPLAY',
          `TRIGGER:${trigger(entry.alarm)}`,
          `DESCRIPTION:${escaped(entry.title)}`,
          'END:VALARM',
        ]),
    'END:VEVENT',
  ];
}

const isDay = (on: string): boolean => on.length === 'YYYY-MM-DD'.length;

const zoned = (on: string, timeZone: string): Temporal.ZonedDateTime =>
  Temporal.Instant.from(on).toZonedDateTimeISO(timeZone);

/** `;TZID=America/Chicago:20260310T200000` or `;VALUE=DATE:20260324` */
function startOf(on: string, timeZone: string): string {
  if (isDay(on)) return `;VALUE=DATE:${compact(on)}`;
  const at = zoned(on, timeZone);
  const local = at.toPlainDateTime();
  // A local time that a clock change repeats means the first of the two (RFC 5545, 3.3.5), but programs differ in what
  // they take it for: such a time is told in UTC.
  const [first, second] = (['earlier', 'later'] as const).map((disambiguation) =>
    local.toZonedDateTime(timeZone, { disambiguation }),
  );
  return first && second?.equals(first)
    ? `;TZID=${timeZone}:${compact(local.toString({ smallestUnit: 'second' }))}`
    : `:${compact(at.toInstant().toString({ smallestUnit: 'second' }))}`;
}

/** The rules of the zone over the time of the entries; none where all of them are whole days. */
function timeZoneLines(entries: readonly CalendarEntry[], timeZone: string): string[] {
  const instants = entries
    .filter(({ on }) => !isDay(on))
    .map(({ on }) => zoned(on, timeZone))
    .sort(Temporal.ZonedDateTime.compare);
  const [first, last] = [instants.at(0), instants.at(-1)];
  if (!first || !last) return [];
  return [
    'BEGIN:VTIMEZONE',
    `TZID:${timeZone}`,
    ...observances(first, last).flatMap(observanceLines),
    'END:VTIMEZONE',
  ];
}

const observanceLines = ({ kind, begins, from, to }: Observance): string[] => [
  `BEGIN:${kind}`,
  `DTSTART:${compact(begins)}`,
  `TZOFFSETFROM:${from.replaceAll(':', '')}`,
  `TZOFFSETTO:${to.replaceAll(':', '')}`,
  `END:${kind}`,
];

/** `2026-03-10T20:00:00` to `20260310T200000` */
const compact = (iso: string): string => iso.replace(/[-:]/g, '');

/** `-PT15H`, `PT0M` */
function trigger(minutes: number): string {
  const size = Math.abs(minutes);
  const parts = [size >= 60 ? `${Math.floor(size / 60)}H` : '', size % 60 ? `${size % 60}M` : ''];
  return `${minutes < 0 ? '-' : ''}PT${parts.join('') || '0M'}`;
}

/** A UUID of version 8 (RFC 9562, 5.8): a digest, from which nothing that went into it can be read. */
function identifier(parts: readonly string[]): string {
  const bytes = createHash('sha256').update(JSON.stringify(parts)).digest().subarray(0, 16);
  bytes[6] = ((bytes[6] as number) & 0x0f) | 0x80;
  bytes[8] = ((bytes[8] as number) & 0x3f) | 0x80;
  return bytes.toString('hex').replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
}

/** RFC 5545, 3.3.11; other control characters have no place in a text. */
const escaped = (text: string): string =>
  text
    .replace(/\r\n?/g, '\n')
    .replace(/(?![\n\t])\p{Cc}/gu, '')
    .replace(/[\\;,]/g, '\\$&')
    .replaceAll('\n', '\\n');

/** The longest line in octets, without its end (RFC 5545, 3.1). */
const LONGEST_LINE = 75;

/** Breaks a long line before the octet that is too much, never within a character. */
function folded(line: string): string {
  let text = '';
  let octets = 0;
  for (const character of line) {
    const size = Buffer.byteLength(character);
    if (octets + size > LONGEST_LINE) {
      text += '\r\n ';
      octets = 1;
    }
    text += character;
    octets += size;
  }
  return text;
}
