import { once } from '../../units/once.js';
import { type ClockForm, clockForm, readClock } from './clock-form.js';
import { COUNTED, type CountedName } from './counted-time.js';

/** A column and how its time is written; what is not sure about it. */
export interface SampleTime {
  readonly index: number;
  readonly written: string;
  readonly doubt: string | null;
}

/** Where a sample tells day and time. */
export interface SampleClock {
  readonly day: SampleTime | null;
  readonly time: SampleTime;
}

const DAYS = [
  'yyyy-MM-dd',
  'yyyy/MM/dd',
  'yyyy.MM.dd',
  'yyyyMMdd',
  'dd.MM.yyyy',
  'd.M.yyyy',
  'd.M.yy',
  'd/M/yyyy',
  'M/d/yyyy',
  'd/M/yy',
  'M/d/yy',
  'd-M-yyyy',
  'M-d-yyyy',
  'd-M-yy',
  'M-d-yy',
  'yy-MM-dd',
  'd MMM yyyy',
  'd-MMM-yyyy',
  'd-MMM-yy',
  'd.MMM.yyyy',
  'd/MMM/yyyy',
  'MMM d yyyy',
  'MMM d, yyyy',
  'EEE d MMM yyyy',
  'EEE, d MMM yyyy',
];
const TIMES = [
  'HH:mm:ss',
  'HH:mm',
  'H:mm:ss',
  'H:mm',
  'h:mm:ss a',
  'h:mm a',
  "H'h'mm",
  'HHmmss',
  'HHmm',
];
const ZONED = ['HH:mm:ssXXX', 'HH:mmXXX', 'HHmmssXXX'];
const TIMES_ALONE = ['H:mm:ss', 'H:mm', 'h:mm:ss a', 'h:mm a', "H'h'mm"];
/** Times that look like numbers: only beside a day. */
const TIMES_LIKE_NUMBERS = ['H.mm.ss', 'H.mm', 'HHmmss', 'HHmm'];

const forms = (patterns: readonly string[]) =>
  patterns.map((pattern) => clockForm(pattern) as ClockForm);
const days = once(() => forms(DAYS));
const times = once(() => forms(TIMES_ALONE));
const timesLikeNumbers = once(() => forms(TIMES_LIKE_NUMBERS));
const moments = once(() =>
  forms([
    ...DAYS.flatMap((day) => [...TIMES, ...ZONED].flatMap((time) => [`${day} ${time}`])),
    ...DAYS.slice(0, 4).flatMap((day) => [...TIMES, ...ZONED].map((time) => `${day}T${time}`)),
    ...DAYS.flatMap((day) => TIMES.map((time) => `${day}, ${time}`)),
    'yyyyMMddHHmmss',
    'yyyyMMddHHmm',
  ]),
);

/** A title of a time that is counted. */
const COUNT_TITLE = /elapsed|since|durat|transcurr|dauer|verstrich|ecoul|écoul|relativ/i;
const TIME_TITLE = /time|zeit|tiempo|temps|hora|heure|clock|uhr|\bmin(ut\w*)?\b|\bse[ckg]\w*|^t\b/i;
const SECONDS_TITLE = /\bse[ckg]\w*|\bs\b/i;
const MINUTES_TITLE = /\bmin(ut\w*)?\b/i;

/** A count from 1970 lies between the years 2000 and 2100; in seconds. Not a clinical number. */
const UNIX = [946_684_800, 4_102_444_800] as const;
/** No anesthesia is counted in so many minutes. Common practice. */
const MOST_MINUTES = 24 * 60;

/**
 * The columns of day and time of a sample; null where none reads as a time.
 * @param column the cells of a column
 */
export function sampleClock(
  titles: readonly string[],
  column: (index: number) => readonly string[],
): SampleClock | null {
  const indexes = [...titles.keys()];
  const cells = indexes.map((index) => column(index).filter((cell) => cell !== ''));
  const first = (among: readonly ClockForm[], where = (_: number) => true) => {
    const found = indexes.flatMap((index) => {
      if (!where(index)) return [];
      const fit = bestForm(among, cells[index] as string[], titles[index] as string);
      return fit ? [{ index, ...fit }] : [];
    });
    // The time of a cuff's last reading stands still on most lines.
    const [best] = found.sort((one, other) => other.different - one.different);
    return best ? { index: best.index, written: best.written, doubt: best.doubt } : null;
  };
  const halved = (time: SampleTime) => ofHalfADay(time, cells[time.index] as string[], titles);
  const moment = first(moments());
  if (moment) return { day: null, time: halved(moment) };
  const day = first(days());
  const clock = first(times(), (index) => !COUNT_TITLE.test(titles[index] as string));
  if (clock) return withCount(halved(clock), day, cells[clock.index] as string[], titles);
  if (day) {
    const time = first(timesLikeNumbers(), (index) => TIME_TITLE.test(titles[index] as string));
    if (time) return { day, time };
  }
  const time = counted(titles, cells);
  return time ? { day: null, time } : null;
}

/** A time of day, or where it begins at zero and no day is told, perhaps a count. */
function withCount(
  clock: SampleTime,
  day: SampleTime | null,
  cells: readonly string[],
  titles: readonly string[],
): SampleClock {
  if (day || !/^0?0:00:\d\d/.test(cells[0] ?? '')) return { day, time: clock };
  const written: CountedName = 'hours:minutes:seconds';
  const doubt = `"${titles[clock.index]}" begins at zero and is taken for a count from the start of anesthesia; if it is the time of day, write ${clock.written}`;
  return { day: null, time: { index: clock.index, written, doubt } };
}

/** A time of day; where its hours go from 12 to 1 and never beyond 12, one that tells no half of the day. */
function ofHalfADay(
  time: SampleTime,
  cells: readonly string[],
  titles: readonly string[],
): SampleTime {
  const form = clockForm(time.written) as ClockForm;
  const times = cells.flatMap((cell) => readClock(form, cell)?.time ?? []);
  const steps = times.slice(1).map((to, row) => ({ from: times[row] as typeof to, to }));
  const back = steps.filter(({ from, to }) => from.until(to).sign < 0).length;
  const isBackwards = back > steps.length / 2;
  const passesNoon = steps.some(({ from, to }) => {
    const [before, after] = isBackwards ? [to, from] : [from, to];
    return before.hour === 12 && after.hour === 1;
  });
  if (!passesNoon || times.some(({ hour }) => hour < 1 || hour > 12)) return time;
  const written = time.written.replace(/H+/, (hours) => hours.toLowerCase());
  if (typeof clockForm(written) === 'string') return time;
  const doubt = `"${titles[time.index]}" goes from 12 to 1 without AM or PM and is taken for hours 1-12; the start of anesthesia then settles which half of the day it is`;
  return { ...time, written, doubt: time.doubt === null ? doubt : `${time.doubt}; ${doubt}` };
}

/** A form that reads most cells of a column and all that any other reads; of several days, those that lie closest. */
function bestForm(among: readonly ClockForm[], cells: readonly string[], title: string) {
  const few = cells.slice(0, 5);
  const fits = among
    .filter((form) => few.some((cell) => readClock(form, cell) !== null))
    .map((form) => {
      const read = cells.flatMap((cell) => readClock(form, cell) ?? []);
      const different = new Set(read.map(({ day, time }) => `${day} ${time}`)).size;
      const told = read.flatMap(({ day }) => (day ? [day.toString()] : [])).sort();
      const [from, to] = [told[0] ?? '', told.at(-1) ?? ''];
      return { form, count: read.length, different, days: told.join(), span: daysFrom(from, to) };
    });
  const most = Math.max(0, ...fits.map(({ count }) => count));
  const [best, ...others] = fits
    .filter(({ count }) => count === most && count * 2 > cells.length)
    .sort((one, other) => one.span - other.span);
  if (!best) return null;
  const another = others.find((other) => other.days !== best.days);
  const doubt = another
    ? `"${title}" may also be written ${another.form.pattern}: see which is the day`
    : null;
  return { written: best.form.pattern, doubt, different: best.different };
}

const daysFrom = (from: string, to: string): number =>
  from === '' ? 0 : (Date.parse(to) - Date.parse(from)) / 86_400_000;

/** A column that counts: from 1970, which its size tells, or from the start of anesthesia, which its title tells. */
function counted(
  titles: readonly string[],
  columns: readonly (readonly string[])[],
): SampleTime | null {
  const numbers = columns.map((cells) =>
    cells.map((cell) => Number(cell.replace(',', '.'))).filter(Number.isFinite),
  );
  const among = (all: readonly number[], factor: number) =>
    all.length > 0 && all.every((one) => one / factor >= UNIX[0] && one / factor <= UNIX[1]);
  for (const [index, all] of numbers.entries()) {
    if (among(all, 1)) return { index, written: 'Unix seconds', doubt: null };
    if (among(all, 1000)) return { index, written: 'Unix milliseconds', doubt: null };
  }
  for (const [index, title] of titles.entries()) {
    if (!COUNT_TITLE.test(title) && !TIME_TITLE.test(title)) continue;
    const written = countOf(title, columns[index] as string[], numbers[index] as number[]);
    if (!written) continue;
    const doubt = `"${title}" is taken for ${written} from the start of anesthesia; if they count from another moment, tell how far under "clock of vitals" of a case`;
    return { index, written, doubt };
  }
  return null;
}

/** What a column counts, by its title or else by its numbers, which go one way. */
function countOf(
  title: string,
  cells: readonly string[],
  numbers: readonly number[],
): CountedName | null {
  const read = cells.filter((cell) => STOPWATCH.milliseconds(cell) !== null);
  if (read.length * 2 > cells.length) return 'hours:minutes:seconds';
  const steps = numbers.slice(1).map((one, at) => one - (numbers[at] as number));
  const goesOneWay = steps.every((step) => step >= 0) || steps.every((step) => step <= 0);
  if (numbers.length * 2 <= cells.length || !goesOneWay) return null;
  if (SECONDS_TITLE.test(title)) return 'seconds';
  if (MINUTES_TITLE.test(title)) return 'minutes';
  return Math.max(...numbers) > MOST_MINUTES ? 'seconds' : 'minutes';
}

const STOPWATCH = COUNTED['hours:minutes:seconds'];

/** Whether the times of a sample go back from line to line, more often than on. */
export function isNewestFirst(
  { day, time }: SampleClock,
  column: (index: number) => readonly string[],
): boolean {
  const days = day && column(day.index).map(reader(day.written));
  const keys = column(time.index).flatMap((cell, row) => {
    const read = reader(time.written)(cell);
    return read === null ? [] : [`${days?.[row] ?? ''} ${read}`];
  });
  const steps = keys.slice(1).map((key, row) => key.localeCompare(keys[row] as string));
  const back = steps.filter((step) => step < 0).length;
  return back > steps.filter((step) => step > 0).length;
}

/** Reads cells to texts that sort as their times do; null for no time. */
function reader(written: string): (cell: string) => string | null {
  if (written in COUNTED) {
    const { milliseconds } = COUNTED[written as CountedName];
    return (cell) => milliseconds(cell)?.toFixed(0).padStart(16, '0') ?? null;
  }
  const form = clockForm(written) as ClockForm;
  return (cell) => {
    const told = readClock(form, cell);
    return told && `${told.day ?? ''} ${told.time ?? ''}`;
  };
}
