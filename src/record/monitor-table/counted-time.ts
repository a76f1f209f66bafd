interface CountedTime {
  readonly since: 'the start of anesthesia' | '1970';
  /** Milliseconds that a cell counts; null where it is no such count. */
  readonly milliseconds: (cell: string) => number | null;
}

const NUMBER = /^-?\d+([.,]\d+)?$/;
const number = (cell: string) => (NUMBER.test(cell) ? Number(cell.replace(',', '.')) : null);

const times = (milliseconds: number) => (cell: string) => {
  const count = number(cell);
  return count === null ? null : count * milliseconds;
};

/** `0:04:05` to milliseconds; a stopwatch counts its hours on beyond a day. */
function stopwatch(cell: string): number | null {
  const [, sign, hours, minutes, seconds] =
    /^(-?)(\d+):([0-5]\d):([0-5]\d(?:[.,]\d+)?)$/.exec(cell) ?? [];
  if (hours === undefined) return null;
  const passed = Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds?.replace(',', '.'));
  return passed * (sign === '-' ? -1000 : 1000);
}

/**
 * Tables that count time instead of telling it, by the words of the clinic's file. Unix time counts from 1970 in UTC; source:
 * POSIX (IEEE Std 1003.1), "seconds since the Epoch". Milliseconds of a unit: not a clinical number.
 */
export const COUNTED = {
  minutes: { since: 'the start of anesthesia', milliseconds: times(60_000) },
  seconds: { since: 'the start of anesthesia', milliseconds: times(1000) },
  'hours:minutes:seconds': { since: 'the start of anesthesia', milliseconds: stopwatch },
  'Unix seconds': { since: '1970', milliseconds: times(1000) },
  'Unix milliseconds': { since: '1970', milliseconds: times(1) },
} as const satisfies Readonly<Record<string, CountedTime>>;

export type CountedName = keyof typeof COUNTED;

export const COUNTED_NAMES = Object.keys(COUNTED) as CountedName[];
