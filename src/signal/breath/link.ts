import { type Reason, reason } from '../reason.js';
import {
  type BreathClock,
  clockThrough,
  inBoth,
  isWithin,
  paceClock,
  type Span,
  spansOfWholeBreaths,
  wholeBreaths,
} from './breath-clock.js';
import { type BreathSource, type Breaths, FEWEST_STARTS } from './breaths.js';
import { asLarge, type Chance, chance, measure } from './chance.js';
import { type Intervals, intervalsIn, type TimedBeat } from './intervals.js';
import { strongestOtherPace } from './other-paces.js';
import { type Rayleigh, rayleigh } from './rayleigh.js';
import { type Swing, swingOver } from './swing.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Why it cannot be told whether the heartbeat is linked to the breath. */
type Doubt =
  | 'breathing not known'
  | 'unreadable'
  | 'too few breaths'
  | 'too few beats'
  | 'beats not counted'
  | 'beats in step with the breath'
  | 'another pace is stronger'
  | 'breath only guessed from the ecg';

/** Whether the intervals go with the breath, and by which numbers. */
export interface BreathLink {
  readonly verdict: 'linked' | 'not linked' | 'cannot tell';
  /** Given where the verdict is `cannot tell`. */
  readonly doubt: Doubt | null;
  /** The numbers that it rests on, or what is missing. */
  readonly because: readonly Reason[];
  readonly source: BreathSource | null;
  /** Whole, readable breaths that were used; for a stated rate, how many fit into the readable time. */
  readonly breaths: number;
  /** Beats at the end of an RR interval that was used. */
  readonly beats: number;
  /** Length of a breath that was used, s. */
  readonly period: number | null;
  /**
   * For each beat given, where in its breath it fell, 0 to 1; null outside the whole, readable
   * breaths and after the first ten minutes. Counted from the start of inspiration, or where `fromInspiration` is false from an
   * arbitrary point of the breath.
   */
  readonly phases: readonly (number | null)[];
  readonly fromInspiration: boolean;
  /** Share of the swing of the RR intervals that goes with the breath, 0 to 1. */
  readonly follow: number | null;
  /** Of the phases of all beats; it takes beats for independent, which they are not, so see `chance`. */
  readonly rayleigh: Rayleigh | null;
  readonly chance: Chance | null;
  readonly cluster: {
    /** Beats crowd in one part of the breath more than chance explains. */
    readonly clustered: boolean;
    /** Middle of the crowd in turns; after the start of inspiration where that is known, else null. */
    readonly afterInspiration: number | null;
  } | null;
  readonly swing: Swing | null;
}

/** Our own choices, no source: below them a swing cannot be told from its own scatter. */
const FEWEST_BREATHS = 5;
const FEWEST_INTERVALS = 15;
/** With fewer beats to a breath a swing within it cannot be seen. */
const FEWEST_PER_BREATH = 2;

/** A link is told where chance gives as much in at most this share of the surrogates. */
const MOST_CHANCE = 0.01;

/** A stated rate is a whole number (half a breath/min either way) off a clock that may be 1 % off. */
const ROUNDING = 0.5;
const CLOCK_ERROR = 0.01;

/** A pace with this share of the swing is a rhythm of its own, not scatter. Our own choice. */
const STRONG = 0.5;

/**
 * No more of a strip than this is used, s: enough for any link, and the cost of looking at other paces
 * grows with the square of it. A pace of which the phase is not known is searched over less.
 */
const LONGEST_USED = 600;
const LONGEST_BY_PACE = 180;

/** Intervals that scatter less than this share of their mean are regular. */
const REGULAR = 0.03;
/** Resultant of the beats' phases times the whole ratio, from which on they count as in step. */
const IN_STEP = 0.6;

/**
 * Whether the heartbeat goes with the breath. Linked: the RR intervals swing with it more than in
 * all but 1 % of the surrogates, and no other pace explains the swing better. `beats` in ascending
 * time, all that were found, with their kinds where known; `readable` the spans of the strip in which beats could be found, ascending.
 */
export function linkToBreath(
  beats: readonly TimedBeat[],
  breaths: Breaths,
  readable: readonly Span[],
): BreathLink {
  const { times, period } = breaths;
  const known = times !== null && times.length >= FEWEST_STARTS;
  if (period === null || (times !== null && !known)) {
    return untold(beats, breaths, 'breathing not known', breaths.because);
  }
  const starts = known ? times : null;
  const used = within(readable, starts ? LONGEST_USED : LONGEST_BY_PACE);
  const spans = starts ? inBoth(spansOfWholeBreaths(starts), used) : used;
  const whole = starts
    ? wholeBreaths(starts, spans)
    : Math.floor(spans.reduce((sum, { from, to }) => sum + to - from, 0) / period);
  const all = starts ? wholeBreaths(starts, spansOfWholeBreaths(starts)) : whole;
  if (whole < FEWEST_BREATHS) {
    return untold(
      beats,
      breaths,
      all >= FEWEST_BREATHS ? 'unreadable' : 'too few breaths',
      reason('too few breaths', { count: whole, limit: FEWEST_BREATHS }),
      whole,
    );
  }
  const intervals = intervalsIn(beats, spans);
  const perBreath = intervals.n / whole;
  if (intervals.n < FEWEST_INTERVALS || perBreath < FEWEST_PER_BREATH) {
    return untold(
      beats,
      breaths,
      'too few beats',
      reason('too few intervals', {
        count: intervals.n,
        breaths: whole,
        limit: FEWEST_INTERVALS,
        perBreath: FEWEST_PER_BREATH,
      }),
      whole,
      intervals.n,
    );
  }
  const clocks = starts ? [clockThrough(starts)] : clocksNear(period, spans);
  return judge(beats, breaths, spans, whole, intervals, clocks);
}

/**
 * The same where what was found one by one need not be beats, so that no rate could be counted: of such no distance from
 * one to the next says how the heart goes with the breath.
 */
export function withoutCount(link: BreathLink, found: readonly unknown[]): BreathLink {
  if (link.verdict === 'cannot tell') return link;
  return untold(found, link, 'beats not counted', reason('beats not counted', {}), link.breaths);
}

function judge(
  beats: readonly TimedBeat[],
  breaths: Breaths,
  spans: readonly Span[],
  whole: number,
  intervals: Intervals,
  clocks: readonly BreathClock[],
): BreathLink {
  const found = measure(intervals, clocks);
  const { clock } = found;
  const odds = chance(intervals, clocks, found);
  const phases: (number | null)[] = [];
  for (const { time } of beats) phases.push(phaseAt(time, spans, clock));
  const test = rayleigh(phases.filter((phase) => phase !== null));
  const clustered = odds.cluster <= MOST_CHANCE;
  const outcome = verdictOf(breaths, whole, intervals, clock, found.follow, odds);
  return {
    ...outcome,
    source: breaths.source,
    breaths: whole,
    beats: intervals.n,
    period: clock.period,
    phases,
    fromInspiration: breaths.fromInspiration,
    follow: found.follow,
    rayleigh: test,
    chance: odds,
    cluster: {
      clustered,
      afterInspiration: clustered && breaths.fromInspiration ? test.meanPhase : null,
    },
    swing: swingOver(intervals, clock.turnsAt),
  };
}

/** 0 to 1 of a breath; null where none is known. */
function phaseAt(time: number, spans: readonly Span[], clock: BreathClock): number | null {
  if (!isWithin(spans, time, time)) return null;
  const turns = clock.turnsAt(time);
  return turns - Math.floor(turns);
}

function verdictOf(
  { source }: Breaths,
  whole: number,
  intervals: Intervals,
  clock: BreathClock,
  follow: number,
  odds: Chance,
): Pick<BreathLink, 'verdict' | 'doubt' | 'because'> {
  const measured = reason('swing with the breath', {
    share: follow,
    intervals: intervals.n,
    breaths: whole,
    matched: asLarge(odds),
    chance: odds.follow,
    trials: odds.surrogates,
  });
  const doubt = (why: Doubt, but: Reason) =>
    ({ verdict: 'cannot tell', doubt: why, because: [measured, but] }) as const;
  const other = strongestOtherPace(intervals, clock, whole);
  if (odds.follow <= MOST_CHANCE) {
    return other > follow
      ? doubt('another pace is stronger', reason('another pace', {}))
      : { verdict: 'linked', doubt: null, because: [measured] };
  }
  if (source === 'ventilator rate' && other >= STRONG) {
    return doubt('another pace is stronger', reason('another pace may be the breath', {}));
  }
  if (inStep(intervals, clock)) {
    return doubt('beats in step with the breath', reason('beats in step', {}));
  }
  if (source === 'ecg') {
    return doubt('breath only guessed from the ecg', reason('breath guessed from the ECG', {}));
  }
  return { verdict: 'not linked', doubt: null, because: [measured] };
}

/** A regular beat that falls on the same few phases of every breath. */
function inStep({ n, rr, swing, middles }: Intervals, clock: BreathClock): boolean {
  const mean = rr.reduce((sum, value) => sum + value, 0) / n;
  const scatter = Math.sqrt(swing.reduce((sum, value) => sum + value * value, 0) / n);
  if (scatter > REGULAR * mean) return false;
  const ratio = Math.round(clock.period / mean);
  const phases = Array.from(middles, (middle) => ratio * clock.turnsAt(middle));
  return rayleigh(phases).meanResultantLength >= IN_STEP;
}

/** The spans as far as `seconds` after the first begins. */
function within(spans: readonly Span[], seconds: number): readonly Span[] {
  const from = spans[0]?.from ?? 0;
  return inBoth(spans, [{ from, to: from + seconds }]);
}

/** Paces that a stated rate may stand for, a quarter of what the strip can tell apart between them. */
function clocksNear(period: number, spans: readonly Span[]): BreathClock[] {
  const rate = 60 / period;
  const reach = ROUNDING + CLOCK_ERROR * rate;
  const minutes = ((spans.at(-1) as Span).to - (spans[0] as Span).from) / 60;
  const steps = Math.max(1, Math.ceil(reach * minutes * 4));
  return Array.from({ length: 2 * steps + 1 }, (_, i) =>
    paceClock(60 / (rate + (reach * (i - steps)) / steps)),
  );
}

function untold(
  beats: readonly unknown[],
  { source, fromInspiration, period }: Pick<Breaths, 'source' | 'fromInspiration' | 'period'>,
  doubt: Doubt,
  because: Reason,
  breaths = 0,
  used = 0,
): BreathLink {
  return {
    verdict: 'cannot tell',
    doubt,
    because: [because],
    source,
    breaths,
    beats: used,
    period,
    phases: beats.map(() => null),
    fromInspiration,
    follow: null,
    rayleigh: null,
    chance: null,
    cluster: null,
    swing: null,
  };
}
