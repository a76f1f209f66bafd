import type { Wave } from '../../src/signal/marked-beat.js';
import { NORMAL, type WithinName } from '../../src/signal/rhythm/rhythm.js';
import type { FoundRhythm, StripAnalysis } from '../../src/signal/strip-analysis.js';
import { sayReason } from '../../src/words/reason.js';
import type { BeatPlan } from '../synth/beat-plan.js';
import { type BeatTruth, type Span, type Truth, truthOf } from '../synth/truth.js';
import { ENGLISH } from '../tools/english.js';
import { matchBeats } from '../tools/match-beats.js';
import { TRUE_RHYTHMS, type TrueName, type TrueRhythm } from './catalogue.js';

/**
 * `both`: said to be the truth or what no single strip can tell from it, and nothing else. `open`: withheld, but the true
 * rhythm is among the few that it is said to be.
 */
export type Verdict = 'right' | 'both' | 'open' | 'withheld' | 'wrong';

/** The five edges, in the order of a beat. */
export const EDGES = ['P onset', 'P end', 'QRS onset', 'QRS end', 'T end'] as const;
export type Edge = (typeof EDGES)[number];
export const WAVES = ['P', 'QRS', 'T'] as const;
export type WaveName = (typeof WAVES)[number];

interface WaveCount {
  readonly found: number;
  readonly missed: number;
  readonly invented: number;
}

/** What came of one strip. */
export interface Judgement {
  /** Name of most of the readable time. */
  readonly said: string;
  /** Events found within, by name, each once. */
  readonly events: readonly string[];
  readonly verdict: Verdict;
  /** Of the stretches that bear no name, the first reason of the longest; null where there is none. */
  readonly because: string | null;
  /** Share of the strip, 0 to 1. */
  readonly readable: number;
  /** Share of the strip for which a rhythm was named, 0 to 1. */
  readonly named: number;
  /** Normal names of any stretch. */
  readonly normal: readonly string[];
  /** A stretch under a normal name in which the beats are counted wrongly by 30 % or more. */
  readonly miscounted: boolean;
  readonly beats: {
    readonly found: number;
    readonly missed: number;
    readonly extra: number;
  };
  readonly waves: Readonly<Record<WaveName, WaveCount>>;
  /** Found minus true, ms. */
  readonly errors: Readonly<Record<Edge, readonly number[]>>;
}

/** Match window after ANSI/AAMI EC57, s. */
const WINDOW = 0.15;

export function judge(rhythm: TrueName, plan: BeatPlan, analysis: StripAnalysis): Judgement {
  const truth = truthOf(plan);
  const entry: TrueRhythm = TRUE_RHYTHMS[rhythm];
  const clear = readableIn(analysis);
  const named = analysis.rhythms.filter(({ confidence }) => confidence !== null);
  const normal = named.filter(isNormal);
  const said = mostTime(analysis);
  const events = [...new Set(analysis.rhythms.flatMap(({ within }) => within.map((e) => e.name)))];
  return {
    said,
    events,
    verdict: isBoth(entry, said, plan, analysis)
      ? 'both'
      : isOpen(entry, said, analysis)
        ? 'open'
        : verdictOn(entry, said, truth, analysis),
    because: whyWithheld(analysis),
    readable: analysis.quality.readable,
    named: named.reduce((sum, { from, to }) => sum + to - from, 0) / analysis.duration,
    normal: [...new Set(normal.map(({ name }) => name))],
    miscounted: entry.danger === 'sinus' && normal.some((each) => miscounts(each, truth, analysis)),
    ...beatsAndWaves(rhythm, truth, analysis, clear),
  };
}

const isNormal = ({ name }: FoundRhythm): boolean => NORMAL.some((normal) => normal === name);

/** Whether all of `from` to `to` can be read. */
type Clear = (from: number, to: number) => boolean;

function readableIn({ quality }: StripAnalysis): Clear {
  const spans = quality.spans.filter(({ readable }) => readable);
  return (from, to) => spans.some((span) => span.from <= from && to <= span.to);
}

const WITHHELD = 'cannot be told';

export const isWithheld = (said: string): boolean => said === WITHHELD || said === 'not readable';

function mostTime({ rhythms, quality }: StripAnalysis): string {
  const time = new Map<string, number>();
  for (const { name, from, to } of rhythms) {
    const called = name === 'not readable' ? WITHHELD : name;
    for (const span of quality.spans) {
      const common = Math.min(to, span.to) - Math.max(from, span.from);
      if (span.readable && common > 0) time.set(called, (time.get(called) ?? 0) + common);
    }
  }
  const most = [...time].sort((a, b) => b[1] - a[1])[0];
  return most ? most[0] : 'not readable';
}

function verdictOn(
  { names, events, openEvent }: TrueRhythm,
  said: string,
  truth: Truth,
  analysis: StripAnalysis,
): Verdict {
  const isNamed = names.some((name) => name === said);
  if (!events) return isNamed ? 'right' : isWithheld(said) ? 'withheld' : 'wrong';
  const holds = (...these: readonly (WithinName | undefined)[]): boolean =>
    analysis.rhythms.some(({ within }) => within.some(({ name }) => these.includes(name)));
  if (holds(...events)) return isNamed || isWithheld(said) ? 'right' : 'wrong';
  if (isWithheld(said)) return 'withheld';
  if (isNamed && holds(openEvent)) return 'open';
  // Nothing was overlooked where no event lies in a stretch that was named.
  const isOverlooked = eventTimes(truth).some((time) =>
    analysis.rhythms.some(
      ({ confidence, from, to }) => confidence !== null && from <= time && time <= to,
    ),
  );
  return isNamed && !isOverlooked ? 'right' : 'wrong';
}

/** Whether what is left open at most length is the truth and its look-alikes, and nothing else. */
function isBoth(
  { names, mayBe, lookAlikes }: TrueRhythm,
  said: string,
  plan: BeatPlan,
  { rhythms }: StripAnalysis,
): boolean {
  if (!isWithheld(said) || !lookAlikes) return false;
  const possible: readonly string[] = longestOpen(rhythms)?.possible ?? [];
  const alike: readonly string[] = lookAlikes(plan);
  return (
    [...names, ...(mayBe ?? [])].some((name) => possible.includes(name)) &&
    possible.every((name) => alike.includes(name))
  );
}

/** Whether what is left open at most length may be the truth. */
function isOpen({ names, mayBe }: TrueRhythm, said: string, { rhythms }: StripAnalysis): boolean {
  if (!isWithheld(said)) return false;
  const possible: readonly string[] = longestOpen(rhythms)?.possible ?? [];
  return [...names, ...(mayBe ?? [])].some((name) => possible.includes(name));
}

/** When something happens that is no sinus beat on time: a beat from elsewhere, or a pause (its middle). */
function eventTimes({ beats }: Truth): number[] {
  const gaps = beats.slice(1).map(({ time }, i) => time - beats[i]!.time);
  const usual = gaps.toSorted((a, b) => a - b)[gaps.length >> 1] ?? Number.POSITIVE_INFINITY;
  return [
    ...beats.filter(({ kind }) => kind !== 'sinus').map(({ time }) => time),
    ...gaps.flatMap((gap, i) => (gap > 1.8 * usual ? [beats[i]!.time + gap / 2] : [])),
  ];
}

function whyWithheld({ rhythms }: StripAnalysis): string | null {
  const first = longestOpen(rhythms)?.because[0];
  return first ? sayReason(first, ENGLISH) : null;
}

function longestOpen(rhythms: readonly FoundRhythm[]): FoundRhythm | undefined {
  return rhythms
    .filter(({ name }) => name === WITHHELD)
    .sort((a, b) => b.to - b.from - (a.to - a.from))[0];
}

function miscounts({ from, to }: FoundRhythm, truth: Truth, analysis: StripAnalysis): boolean {
  const count = (beats: readonly { readonly time: number }[]): number =>
    beats.filter(({ time }) => time >= from && time <= to).length;
  const are = count(truth.beats);
  const found = count(analysis.beats);
  return Math.abs(found - are) > Math.max(2, 0.3 * are);
}

/** Waves of the atria that are no P waves: a saw cannot be missed or invented. */
const WITHOUT_P: readonly TrueName[] = ['atrial flutter 2:1'];

function beatsAndWaves(
  rhythm: TrueName,
  truth: Truth,
  analysis: StripAnalysis,
  clear: Clear,
): Pick<Judgement, 'beats' | 'waves' | 'errors'> {
  const times = (beats: readonly { readonly time: number }[]) => beats.map(({ time }) => time);
  const { pairs, missed, extra } = matchBeats(times(truth.beats), times(analysis.beats), WINDOW);
  const within = (time: number): boolean => clear(time, time);
  const errors = new Map<Edge, number[]>(EDGES.map((edge) => [edge, []]));
  const counts = new Map<WaveName, { found: number; missed: number; invented: number }>(
    WAVES.map((name) => [name, { found: 0, missed: 0, invented: 0 }]),
  );
  const compare = (name: WaveName, is: Span | null, found: Wave | null): void => {
    if (is && !clear(is.onset, is.end)) return;
    const count = counts.get(name)!;
    const meets = is && found && found.peak >= is.onset && found.peak <= is.end;
    if (is && meets) {
      count.found += 1;
      if (name !== 'T') errors.get(`${name} onset`)?.push(1000 * (found.onset - is.onset));
      errors.get(`${name} end`)?.push(1000 * (found.end - is.end));
      return;
    }
    if (is) count.missed += 1;
    if (found && !isLoneP(found, truth)) count.invented += 1;
  };
  const isOf = new Map<number, BeatTruth>(truth.beats.map((beat) => [beat.time, beat]));
  const foundOf = new Map(analysis.beats.map((beat) => [beat.time as number, beat]));
  const read = pairs.filter(({ reference }) => within(reference));
  for (const { reference, found } of read) {
    const is = isOf.get(reference)!;
    const beat = foundOf.get(found)!;
    if (!WITHOUT_P.includes(rhythm)) compare('P', is.p, beat.p);
    compare('QRS', is.qrs, beat.qrs);
    compare('T', is.t, beat.t);
  }
  return {
    beats: {
      found: read.length,
      missed: missed.filter((time) => clear(time - WINDOW, time + WINDOW)).length,
      extra: extra.filter(within).length,
    },
    waves: Object.fromEntries(counts) as Judgement['waves'],
    errors: Object.fromEntries(errors) as unknown as Judgement['errors'],
  };
}

/** A P that belongs to no beat is a P all the same. */
function isLoneP({ peak }: Wave, { lonePWaves }: Truth): boolean {
  return lonePWaves.some((span) => peak >= span.onset && peak <= span.end);
}
