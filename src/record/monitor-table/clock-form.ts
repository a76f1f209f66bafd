import { Temporal } from 'temporal-polyfill';

/**
 * How a monitor writes its clock, in the letters of Unicode Technical Standard 35 (Locale Data Markup Language, date
 * field symbols): `yyyy` or `yy` year, `MM` month, `MMM` its name, `dd` day, `EEE` its name, `HH` hour 0-23, `hh` hour
 * 1-12 with `a` for AM or PM, `mm` minute, `ss` second, `XXX` distance from UTC (`Z`, `+02:00`, `-0500`). A single letter takes one digit or two.
 * Without `a` an hour 1-12 leaves open which half of the day it is.
 * Letters in apostrophes stand for themselves (`HH'h'mm`), and so does everything else.
 */
export interface ClockForm {
  readonly pattern: string;
  readonly hasDay: boolean;
  readonly hasTime: boolean;
  /** Whether its hours 1-12 do not tell which half of the day it is: times are then those of the first. */
  readonly isHalf: boolean;
  /** What a cell looks like. Plain data and no function, as the clinic's file is handed to threads. */
  readonly cell: RegExp;
}

/** Each part is null where the form does not hold it. */
interface ClockParts {
  readonly day: Temporal.PlainDate | null;
  readonly time: Temporal.PlainTime | null;
  /** `+02:00`; the clock then is not that of the clinic. */
  readonly offset: string | null;
}

/** The digits that a run of letters takes. */
const FIELDS: Readonly<Record<string, string>> = {
  yyyy: '(?<year>\\d{4})',
  yy: '(?<year>\\d{2})',
  MMM: '(?<month>\\p{L}{3,})\\.?',
  MM: '(?<month>\\d{2})',
  M: '(?<month>\\d{1,2})',
  dd: '(?<day>\\d{2})',
  d: '(?<day>\\d{1,2})',
  EEE: '(?<weekday>\\p{L}{2,})\\.?',
  HH: '(?<hour>\\d{2})',
  H: '(?<hour>\\d{1,2})',
  hh: '(?<half>\\d{2})',
  h: '(?<half>\\d{1,2})',
  mm: '(?<minute>\\d{2})',
  ss: '(?<second>\\d{2})(?:[.,]\\d+)?',
  a: '(?<noon>[AaPp])\\.?\\s?[Mm]\\.?',
  XXX: '(?<offset>Z|[+-]\\d{2}:?\\d{2})',
};

/** How the names of months begin, January first, in English, Spanish, German and French. Common practice. */
const MONTHS = [
  /^(jan|ene)/,
  /^f[eé]b|^f[eé]v/,
  /^(mar|mär|mrz)/,
  /^(apr|abr|avr)/,
  /^ma[iy]/,
  /^jui?n/,
  /^jui?l/,
  /^(aug|ago|aoû|aou)/,
  /^sep/,
  /^o[ck]t/,
  /^nov/,
  /^d[eé][cz]|^dic/,
];

/** The number of a month by number or name; 0 for none. */
const monthOf = (written: string): number =>
  /^\d+$/.test(written)
    ? Number(written)
    : MONTHS.findIndex((begin) => begin.test(written.toLowerCase())) + 1;

/** A year of two digits belongs to this century. Common practice. */
const CENTURY = 2000;

/** Reads a pattern; a string tells what is wrong with it. */
export function clockForm(pattern: string): ClockForm | string {
  const used: string[] = [];
  let source = '';
  for (const [piece, , said] of pattern.matchAll(/([A-Za-z])\1*|'([^']*)'|[^A-Za-z]/g)) {
    if (said !== undefined) {
      source += literally(said);
      continue;
    }
    const field = FIELDS[piece];
    if (field) {
      const name = /<(\w+)>/.exec(field)?.[1] as string;
      if (used.includes(name)) return `"${piece}" stands for a second ${name}`;
      used.push(name);
      source += field;
    } else if (piece === 'T') source += 'T';
    else if (/[A-Za-z]/.test(piece)) return `"${piece}" stands for nothing`;
    else source += literally(piece);
  }
  const has = (...names: string[]) => names.every((name) => used.includes(name));
  const hasDay = has('year', 'month', 'day');
  const hasTime = has('minute') && (has('hour') || has('half'));
  const stray = used.filter(
    (name) =>
      !(hasDay && ['year', 'month', 'day', 'weekday'].includes(name)) &&
      !(hasTime && ['hour', 'half', 'noon', 'minute', 'second'].includes(name)) &&
      !(hasDay && hasTime && name === 'offset'),
  );
  if (stray.length > 0 || used.length === 0) {
    return 'it holds neither a whole day nor a whole time';
  }
  if (has('hour', 'half')) return 'it holds the hour twice';
  if (has('hour', 'noon')) return 'beside AM or PM the hour is "h" or "hh"';
  const isHalf = has('half') && !has('noon');
  if (isHalf && has('offset')) return 'a distance from UTC needs the hour "HH", or AM or PM';
  return { pattern, hasDay, hasTime, isHalf, cell: new RegExp(`^${source}$`, 'u') };
}

const literally = (text: string): string =>
  text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&').replace(/\s/g, '\\s+');

/** What a cell says; null where it is written otherwise or does not exist. */
export function readClock(form: ClockForm, cell: string): ClockParts | null {
  const groups = form.cell.exec(cell.trim())?.groups;
  return groups ? partsOf(groups, form.hasDay, form.hasTime) : null;
}

/** `Z`, `+0200` or `+02:00` as the last. */
const offsetOf = (written: string): string =>
  written === 'Z' ? '+00:00' : written.replace(/^(...):?(..)$/, '$1:$2');

function partsOf(
  groups: Readonly<Record<string, string | undefined>>,
  hasDay: boolean,
  hasTime: boolean,
): ClockParts | null {
  const number = (name: string) => Number(groups[name] ?? 0);
  const half = number('half');
  if (groups.half !== undefined && (half < 1 || half > 12)) return null;
  const hour =
    groups.half === undefined
      ? number('hour')
      : (half % 12) + (groups.noon?.toLowerCase() === 'p' ? 12 : 0);
  const year = number('year') + (groups.year?.length === 2 ? CENTURY : 0);
  try {
    return {
      day: hasDay
        ? Temporal.PlainDate.from(
            { year, month: monthOf(groups.month ?? ''), day: number('day') },
            { overflow: 'reject' },
          )
        : null,
      time: hasTime
        ? Temporal.PlainTime.from(
            { hour, minute: number('minute'), second: number('second') },
            { overflow: 'reject' },
          )
        : null,
      offset: groups.offset === undefined ? null : offsetOf(groups.offset),
    };
  } catch {
    return null;
  }
}
