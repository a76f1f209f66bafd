import { healingEstimate } from '../care/wound.js';
import { asLarge } from '../signal/breath/chance.js';
import type { AnalysedBeat, StripAnalysis } from '../signal/strip-analysis.js';
import { mmhg } from '../units/brands.js';
import { estimatedMean } from '../vitals/pressure.js';
import type { ShownRate, StripFacts, VitalsFacts, WoundFacts } from './case-facts.js';

/**
 * What a case can be asked, each with all that an answer is judged by. A question whose facts are withheld is not among
 * them.
 */
export type ExerciseFacts =
  | CountTheRate
  | FindTheP
  | GoesWithTheBreath
  | TrustTheNumber
  | EstimateTheMean
  | WhichHealsFirst;

/** Beats counted by hand in windows of one strip. */
export interface CountTheRate {
  readonly name: 'count-the-rate';
  readonly strip: number;
  /** Counted by the program from interval to interval, beats/min. */
  readonly mean: number;
  /** From the shortest to the whole strip, or to a minute of a longer one. */
  readonly windows: readonly CountWindow[];
}

/** A stretch of a strip in which beats are counted, in seconds from its first sample. */
interface CountWindow {
  /** s after the first sample; the last beat before `to` still counts. */
  readonly from: number;
  readonly to: number;
  readonly beats: number;
  /** Beats in the window, times 60 over its length. */
  readonly rate: number;
  /** Of the rate against the mean, as a share of the mean. */
  readonly error: number;
}

/** Before which beats of a short piece there is a P wave. */
export interface FindTheP {
  readonly name: 'find-the-p';
  readonly strip: number;
  readonly from: number;
  readonly to: number;
  readonly beats: readonly PlacedBeat[];
}

interface PlacedBeat {
  /** s after the first sample. */
  readonly time: number;
  /** `withheld` where no P was found and the kind of the beat does not say that there is none. */
  readonly p: 'there' | 'none' | 'withheld';
  /** From the beginning to the end of P, s after the first sample; null where none is told. */
  readonly wave: readonly [onset: number, end: number] | null;
  /** From the beginning of P to that of QRS, s; null where either is not told. */
  readonly pr: number | null;
  readonly kind: AnalysedBeat['kind'];
}

/** Whether the beats of a strip keep time with the breath. */
export interface GoesWithTheBreath {
  readonly name: 'goes-with-the-breath';
  readonly strip: number;
  readonly verdict: 'linked' | 'not linked';
  /** Share of the swing of the intervals that goes with the breath; null where it was not measured. */
  readonly follow: number | null;
  /** Shuffled copies of the beats, how many of them followed as well, and the p value that follows; null where none were made. */
  readonly chance: {
    readonly surrogates: number;
    readonly matched: number;
    readonly p: number;
  } | null;
  readonly breaths: number;
  /** Beats with the time from the beat before, s. */
  readonly intervals: readonly { readonly time: number; readonly length: number }[];
  /** Beginnings of breaths, or where the breath began is not known the same point of each, s. */
  readonly breathAt: readonly number[];
}

/** Whether the displayed rate could be trusted. */
export interface TrustTheNumber {
  readonly name: 'trust-the-number';
  readonly strip: number;
  /** Displayed while the strip ran, or nearest to it; see `ShownRate`. */
  readonly during: boolean;
  readonly shown: ShownRate['shown'];
  readonly alike: boolean;
  /** beats/min */
  readonly counted: number;
  readonly verdict: ShownRate['verdict'];
  /** What a count over a few seconds could have shown; null where the strip is too short. */
  readonly shortWindow: {
    readonly window: number;
    readonly low: number;
    readonly high: number;
  } | null;
}

/** Mean pressure from a pair of readings. */
export interface EstimateTheMean {
  readonly name: 'estimate-the-mean';
  readonly minute: number;
  readonly systolic: number;
  readonly diastolic: number;
  /** Diastolic and one third of the difference. */
  readonly estimate: number;
  /** Halfway between the two: the usual mistake. */
  readonly middle: number;
  /** What the monitor gave; null where it gave none. */
  readonly given: number | null;
}

/** The case's wound against a second one of another length and another gap. */
export interface WhichHealsFirst {
  readonly name: 'which-heals-first';
  readonly own: EdgesAndDays;
  readonly other: EdgesAndDays & { readonly length: 'half' | 'double' };
  readonly first: 'own' | 'other';
}

interface EdgesAndDays {
  readonly healing: 'edge to edge' | 'left open';
  /** mm */
  readonly gap: number;
  /** Days, from and to. */
  readonly days: readonly [number, number];
}

/** The part of a case's facts that questions are made of. */
export interface Askable {
  readonly strips: readonly Omit<StripFacts, 'file' | 'written'>[];
  readonly vitals: Pick<VitalsFacts, 'channels'>;
  /** None of a patient that died: nothing heals. */
  readonly wound?: Pick<
    WoundFacts,
    'healing' | 'edgeGap' | 'tension' | 'slowerBecause' | 'estimate' | 'mouth'
  >;
}

/** The questions that a case can pose, each with all that an answer is judged by; one whose facts are withheld is left out. */
export function exerciseFacts({ strips, vitals, wound }: Askable): ExerciseFacts[] {
  return [
    ...firstOf(strips, countTheRate),
    ...firstOf(strips, findTheP),
    ...firstOf(strips, goesWithTheBreath),
    ...firstOf(strips, trustTheNumber),
    ...estimateTheMean(vitals),
    ...(wound ? whichHealsFirst(wound) : []),
  ];
}

type Strip = Askable['strips'][number];

/** The question about the first strip that can be asked it. */
function firstOf<E>(strips: readonly Strip[], ask: (strip: Strip, index: number) => E | null): E[] {
  for (const [index, strip] of strips.entries()) {
    const asked = ask(strip, index);
    if (asked) return [asked];
  }
  return [];
}

/** Counted by hand: 6 s and 15 s, times 10 and times 4. Common practice. */
const WINDOWS = [6, 15] as const;

/** Where the short counts begin, s, if the strip is long enough: beyond what a student's record asks for. Not a clinical number. */
const BEGIN = 12;

/** Nobody counts more by hand, s: a full minute where the beats come unevenly is common practice. */
const FULL_COUNT = 60;

function countTheRate({ analysis }: Strip, strip: number): CountTheRate | null {
  const { rate, quality, beats } = analysis;
  const readable = quality.spans.find((span) => span.readable);
  if (rate === null || !readable) return null;
  const longest = WINDOWS[WINDOWS.length - 1] as number;
  const room = readable.to - readable.from - longest;
  if (room < 0) return null;
  const from = readable.from + Math.min(BEGIN, Math.floor(room));
  const counted = (begin: number, end: number): CountWindow => {
    const within = beats.filter(({ time }) => time >= begin && time < end).length;
    const found = (within * 60) / (end - begin);
    return { from: begin, to: end, beats: within, rate: found, error: found / rate.mean - 1 };
  };
  return {
    name: 'count-the-rate',
    strip,
    mean: rate.mean,
    windows: [
      ...WINDOWS.map((length) => counted(from, from + length)),
      counted(readable.from, Math.min(readable.to, readable.from + FULL_COUNT)),
    ],
  };
}

/** Most beats of one piece. Our own choice: not a clinical number. */
const PIECE = 6;

/** How long a piece may be, s: what a row of paper holds at 50 mm/s, or where that is a beat or two, at 25. Not a clinical number. */
const LENGTHS = [
  { longest: 3.2, fewest: 4 },
  { longest: 6.5, fewest: 3 },
] as const;

/** A P that is less sure than this is not held against a reader. Our own choice: not a clinical number. */
const SURE = 0.5;

function findTheP({ analysis }: Strip, strip: number): FindTheP | null {
  const all = analysis.beats.map(placed(analysis));
  for (const { longest, fewest } of LENGTHS) {
    for (let count = PIECE; count >= fewest; count -= 1) {
      const piece = pieceOf(all, count, analysis.duration);
      if (piece && piece.to - piece.from <= longest) return { name: 'find-the-p', strip, ...piece };
    }
  }
  return null;
}

/** So many beats on end, of which half or more can be told; null where there are none. */
function pieceOf(
  all: readonly PlacedBeat[],
  count: number,
  duration: number,
): Pick<FindTheP, 'from' | 'to' | 'beats'> | null {
  if (all.length < count) return null;
  // A piece that holds a beat without P teaches more than one where all are alike.
  const odd = all.findIndex(({ p }) => p === 'none');
  const wanted = odd < 0 ? 1 : odd - Math.floor(count / 2);
  const first = Math.max(0, Math.min(Math.max(1, wanted), all.length - count));
  const beats = all.slice(first, first + count);
  if (beats.filter(({ p }) => p !== 'withheld').length < count / 2) return null;
  const [before, after] = [all[first - 1], all[first + count]];
  const [begin, end] = [beats[0] as PlacedBeat, beats.at(-1) as PlacedBeat];
  return {
    from: before ? (before.time + begin.time) / 2 : Math.max(0, begin.time - 0.3),
    to: after ? (end.time + after.time) / 2 : Math.min(duration, end.time + 0.5),
    beats,
  };
}

const placed =
  ({ quality }: StripAnalysis) =>
  ({ time, p, qrs, kind }: AnalysedBeat): PlacedBeat => {
    const noisy = quality.spans.some(
      ({ from, to, readable }) => !readable && time >= from && time <= to,
    );
    const sure = p !== null && p.confidence >= SURE;
    // A beat that begins in the ventricles has no P of its own.
    const none = p === null && kind.startsWith('ventricular');
    return {
      time,
      kind,
      p: noisy ? 'withheld' : sure ? 'there' : none ? 'none' : 'withheld',
      wave: sure && !noisy ? [p.onset, p.end] : null,
      pr: sure && !noisy && qrs ? qrs.onset - p.onset : null,
    };
  };

function goesWithTheBreath({ analysis }: Strip, strip: number): GoesWithTheBreath | null {
  const { verdict, follow, chance, breaths, phases } = analysis.breath;
  // Intervals are held against the longest of those that the rate was counted from.
  if (verdict === 'cannot tell' || analysis.rate === null) return null;
  const { longest } = analysis.rate;
  const times = analysis.beats.map(({ time }) => time);
  return {
    name: 'goes-with-the-breath',
    strip,
    verdict,
    follow,
    chance: chance && {
      surrogates: chance.surrogates,
      matched: asLarge(chance),
      p: chance.follow,
    },
    breaths,
    intervals: times.slice(1).flatMap((time, index) => {
      const length = time - (times[index] as number);
      // Nothing is counted across a stretch that cannot be read.
      return length <= longest + 1e-9 ? [{ time, length }] : [];
    }),
    breathAt: turnsOf(times, phases),
  };
}

/** Where the phase of the breath comes round from one beat to the next, as if it went evenly between them. */
function turnsOf(times: readonly number[], phases: readonly (number | null)[]): number[] {
  return times.slice(1).flatMap((time, index) => {
    const [before, now] = [phases[index], phases[index + 1]];
    if (typeof before !== 'number' || typeof now !== 'number' || now >= before) return [];
    const last = times[index] as number;
    return [last + ((1 - before) / (1 - before + now)) * (time - last)];
  });
}

function trustTheNumber({ analysis, shown }: Strip, strip: number): TrustTheNumber | null {
  const { rate } = analysis;
  if (rate === null || shown.value === null) return null;
  const { during, shown: stretches, isWhole, alike, verdict } = shown.value;
  // The page gives one count for the strip: on a longer one it is not what each number is held against.
  if (!isWhole) return null;
  return {
    name: 'trust-the-number',
    strip,
    during,
    shown: stretches,
    alike,
    counted: rate.mean,
    verdict,
    shortWindow: rate.shortWindow,
  };
}

/** At the lowest systolic pressure: the reading that a decision would hang on. */
function estimateTheMean({ channels }: Askable['vitals']): EstimateTheMean[] {
  const of = (name: string) => channels.find(({ channel }) => channel === name);
  const low = new Map(of('diastolic')?.patient.map(({ minute, value }) => [minute, value]));
  // Of a cuff that read nothing, or of a heart that stands still, the third of the pulse pressure tells no mean.
  const pairs = (of('systolic')?.patient ?? []).filter(
    ({ minute, value }) => value > 0 && (low.get(minute) ?? 0) > 0,
  );
  const [first] = pairs;
  if (!first) return [];
  const { minute, value: systolic } = pairs.reduce(
    (lowest, next) => (next.value < lowest.value ? next : lowest),
    first,
  );
  const diastolic = low.get(minute) as number;
  if (diastolic >= systolic) return [];
  const given = of('mean')?.patient.find((one) => one.minute === minute && !one.computed);
  return [
    {
      name: 'estimate-the-mean',
      minute,
      systolic,
      diastolic,
      estimate: estimatedMean(mmhg(systolic), mmhg(diastolic)),
      middle: (systolic + diastolic) / 2,
      given: given?.value ?? null,
    },
  ];
}

/** Edges of an invented second wound where the case's own meet, mm. Not a clinical number. */
const INVENTED_GAP = 20;

function whichHealsFirst(wound: NonNullable<Askable['wound']>): WhichHealsFirst[] {
  // The question is of skin that is joined or lacking.
  if (wound.mouth || wound.estimate.value.by === 'small opening') return [];
  const gap = wound.edgeGap.value;
  const leftOpen = wound.healing.value === 'left open';
  if (!leftOpen && gap > 0) return [];
  const { from, to } = wound.estimate.value;
  const own: EdgesAndDays = { healing: wound.healing.value, gap, days: [from, to] };
  const otherGap = leftOpen ? gap / 2 : INVENTED_GAP;
  const estimate = healingEstimate({
    healing: 'left open',
    edgeGap: otherGap,
    tension: wound.tension.value,
    slowerBecause: wound.slowerBecause,
    layers: [],
  });
  const days = [estimate.from, estimate.to] as const;
  const first = days[0] > to ? 'own' : days[1] < from ? 'other' : null;
  return first === null
    ? []
    : [
        {
          name: 'which-heals-first',
          own,
          other: {
            healing: 'left open',
            gap: otherGap,
            days,
            length: leftOpen ? 'double' : 'half',
          },
          first,
        },
      ];
}
