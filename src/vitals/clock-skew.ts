import type { Reading } from './channel.js';

/** A strip's beats on the clock of the record, in minutes of anesthesia, ascending. */
export interface CountedBeats {
  readonly beats: readonly number[];
  /** Stretches in which every beat was seen, in minutes of anesthesia. */
  readonly readable: readonly { readonly from: number; readonly to: number }[];
}

/** How far the clock of the displayed rates is from that of the beats. */
export interface ClockSkew {
  /** How far the vitals' clock is ahead of the strips', s; negative where it is behind. */
  readonly seconds: number;
  /** How many displayed rates were compared. */
  readonly readings: number;
  /** Correlation of displayed and counted rates at this shift, and without one. */
  readonly correlation: { readonly shifted: number; readonly asStated: number };
}

/** Why the rates do not tell how far the clocks are apart. */
export type WhyNoSkew =
  | 'Fewer than ten heart rates were displayed beside beats that could be counted.'
  | 'The heart rate hardly changes beside the strips, so that any time fits.'
  | 'The displayed heart rates go with the beats at no time within ten minutes.'
  | 'The displayed heart rates go with the beats at more than one time.';

// Choices of the method, in seconds where they are times: not clinical numbers.
const FURTHEST = 600;
const STEP = 5;
/** A displayed rate is compared with the beats of so many seconds before it. */
const WINDOW = 10;
/** Fewer pairs agree by chance at one shift or another. */
const FEWEST = 10;
const ALIKE = 0.95;
/** So many times more of the rates' change is left unexplained at the times as they stand, where these are wrong. */
const TIMES_WORSE = 4;
/** Shifts that lie closer are one: a monitor that counts for longer shows each change that much later. */
const APART = 2 * WINDOW;
/** A shift farther away that explains nearly as much leaves it open which is the right one. */
const NEARLY_AS_GOOD = 2;
/** Rates that hardly change tell nothing of time: standard deviation of their logarithm. */
const LEAST_CHANGE = 0.04;

/**
 * How far two clocks are apart, by the shift at which displayed rates go best with the beats counted on the strips. Rates
 * are compared by correlation, so a monitor that counts double still tells its time.
 * @returns the skew, near 0 s where the clocks agree; or why the record cannot tell
 */
export function clockSkew(
  displayed: readonly Pick<Reading, 'minute' | 'value'>[],
  strips: readonly CountedBeats[],
): ClockSkew | WhyNoSkew {
  const at = (seconds: number) => {
    const pairs = displayed.flatMap(({ minute, value }) => {
      const counted = rateBefore(minute - seconds / 60, strips);
      return counted === null || value <= 0 ? [] : [[Math.log(value), Math.log(counted)] as const];
    });
    return { seconds, readings: pairs.length, r: correlation(pairs) };
  };
  const all = [];
  for (let seconds = -FURTHEST; seconds <= FURTHEST; seconds += STEP) all.push(at(seconds));
  const compared = all.filter(({ readings }) => readings >= FEWEST);
  const changing = compared.flatMap(({ r, ...one }) => (r === null ? [] : [{ ...one, r }]));
  const [first] = changing;
  if (compared.length === 0) {
    return 'Fewer than ten heart rates were displayed beside beats that could be counted.';
  }
  if (!first) return 'The heart rate hardly changes beside the strips, so that any time fits.';
  const { seconds, readings, r } = changing.reduce((one, other) => (other.r > one.r ? other : one));
  if (r < ALIKE) {
    return 'The displayed heart rates go with the beats at no time within ten minutes.';
  }
  const stated = at(0).r ?? 0;
  const isOpen = changing.some(
    (other) =>
      Math.abs(other.seconds - seconds) > APART &&
      unexplained(other.r) < NEARLY_AS_GOOD * unexplained(r),
  );
  if (isOpen || (isApart(seconds) && unexplained(stated) < TIMES_WORSE * unexplained(r))) {
    return 'The displayed heart rates go with the beats at more than one time.';
  }
  return { seconds, readings, correlation: { shifted: r, asStated: stated } };
}

/** Whether two clocks so many seconds apart disagree: more than the way of counting may account for. */
export const isApart = (seconds: number): boolean => Math.abs(seconds) > APART;

/** Beats/min over the window that ends at `minute`; null where not every beat of it was seen. */
function rateBefore(minute: number, strips: readonly CountedBeats[]): number | null {
  const from = minute - WINDOW / 60;
  for (const { beats, readable } of strips) {
    if (!readable.some((span) => span.from <= from && span.to >= minute)) continue;
    const [start, end] = [firstFrom(beats, from), firstFrom(beats, minute)];
    const [first, last] = [beats[start], beats[end - 1]];
    if (first === undefined || last === undefined || end - start < 3) return null;
    return (end - start - 1) / (last - first);
  }
  return null;
}

/** Index of the first beat at or after a minute, by halving. */
function firstFrom(beats: readonly number[], minute: number): number {
  let [low, high] = [0, beats.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((beats[middle] as number) < minute) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Share of the change of one side that the other leaves unexplained. */
const unexplained = (r: number): number => 1 - Math.max(0, r) ** 2;

/** Pearson's correlation; null where one side hardly changes. */
function correlation(pairs: readonly (readonly [number, number])[]): number | null {
  const count = pairs.length;
  if (count < 2) return null;
  const mean = (side: 0 | 1) => pairs.reduce((sum, pair) => sum + pair[side], 0) / count;
  const means = [mean(0), mean(1)] as const;
  const sum = (a: 0 | 1, b: 0 | 1) =>
    pairs.reduce((total, pair) => total + (pair[a] - means[a]) * (pair[b] - means[b]), 0);
  const [shown, counted] = [sum(0, 0), sum(1, 1)];
  const least = LEAST_CHANGE ** 2 * (count - 1);
  return shown < least || counted < least ? null : sum(0, 1) / Math.sqrt(shown * counted);
}
