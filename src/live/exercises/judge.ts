import type {
  CountTheRate,
  EstimateTheMean,
  ExerciseFacts,
  FindTheP,
  GoesWithTheBreath,
  TrustTheNumber,
  WhichHealsFirst,
} from '../../facts/exercises.js';
import { roundTo } from '../../units/round.js';
import type { Saying } from '../saying.js';
import { readNumber } from './read-number.js';

/** What a reader gave, by the name of the field or of the group of choices; empty where nothing was given. */
export type Given = Readonly<Record<string, string>>;

/** What is said of an answer; `right` is null where there is no answer to judge. */
export interface Judged {
  readonly right: boolean | null;
  /** One sentence or more a line. */
  readonly lines: readonly string[];
  /** Fields that hold no number. */
  readonly unread: readonly string[];
}

/** Judges an answer by the facts of the case, and says why. */
export function judge(exercise: ExerciseFacts, given: Given, say: Saying): Judged {
  switch (exercise.name) {
    case 'count-the-rate':
      return countTheRate(exercise, given, say);
    case 'find-the-p':
      return findTheP(exercise, given, say);
    case 'goes-with-the-breath':
      return goesWithTheBreath(exercise, given, say);
    case 'trust-the-number':
      return trustTheNumber(exercise, given, say);
    case 'estimate-the-mean':
      return estimateTheMean(exercise, given, say);
    case 'which-heals-first':
      return whichHealsFirst(exercise, given, say);
  }
}

const nothing = (say: Saying): Judged => ({
  right: null,
  lines: [say('exercises.empty')],
  unread: [],
});

function unread(fields: readonly string[], say: Saying, example: string): Judged {
  return { right: null, lines: [say('exercises.number', { example })], unread: fields };
}

function countTheRate({ windows, mean }: CountTheRate, given: Given, say: Saying): Judged {
  const answers = windows.map((_, index) => (given[`window-${index}`] ?? '').trim());
  if (answers.every((written) => written === '')) return nothing(say);
  const counts = answers.map((written) => (written === '' ? null : readNumber(written)));
  const bad = answers.flatMap((written, index) =>
    written !== '' && counts[index] === null ? [`window-${index}`] : [],
  );
  if (bad.length > 0) return unread(bad, say, '12');
  const lines = windows.map(({ from, to, beats, rate, error }, index) => {
    const count = counts[index];
    const told = {
      from: roundTo(from, 1),
      to: roundTo(to, 1),
      beats,
      rate: roundTo(rate, 0),
      error: signed(error * 100),
      mean: roundTo(mean, 1),
    };
    if (typeof count !== 'number') return say('exercises.count.missing', told);
    return count === beats
      ? say('exercises.count.exact', told)
      : say(`exercises.count.${isNear(count, beats) ? 'near' : 'off'}`, {
          ...told,
          given: count,
          givenRate: roundTo((count * 60) / (to - from), 0),
        });
  });
  const [short, long] = [windows[0], windows.at(-1)];
  const step = (one: CountTheRate['windows'][number]) => roundTo(60 / (one.to - one.from), 1);
  return {
    right: windows.every(({ beats }, index) => isNear(counts[index] ?? beats, beats)),
    lines: [
      ...lines,
      ...(short && long
        ? [
            say('exercises.count.lesson', {
              short: roundTo(short.to - short.from, 1),
              shortStep: step(short),
              long: roundTo(long.to - long.from, 1),
              longStep: step(long),
            }),
          ]
        : []),
    ],
    unread: [],
  };
}

/** A beat on the edge of a window may be taken in or left out. Not a clinical number. */
const EDGE = 1;

const isNear = (count: number, beats: number): boolean => Math.abs(count - beats) <= EDGE;

/** With its sign, and the true minus of print. */
function signed(value: number): string {
  const told = roundTo(Math.abs(value), 1);
  if (told === 0) return '0';
  return `${value < 0 ? '−' : '+'}${told}`;
}

function findTheP({ beats }: FindTheP, given: Given, say: Saying): Judged {
  const answers = beats.map((beat, index) => {
    const answer = given[`beat-${index}`] ?? '';
    const off = answer === 'there' ? offTheP(beat, given[`mark-${index}`]) : 0;
    return { answer, off, right: answer === beat.p && off === 0 };
  });
  if (answers.every(({ answer }) => answer === '')) return nothing(say);
  const right = answers.filter((one) => one.right).length;
  return {
    right: right === beats.length,
    lines: [
      say('exercises.beat.score', { right, all: beats.length }),
      ...beats.map(({ p, pr }, index) => {
        const { answer, off, right } = answers[index] as (typeof answers)[number];
        const verdict = answer === '' ? 'open' : right ? 'right' : 'wrong';
        const what =
          p !== 'there'
            ? say(`exercises.beat.${p}`)
            : pr === null
              ? say('exercises.beat.thereOnly')
              : say('exercises.beat.there', { pr: roundTo(pr, 3) });
        const told = say(`exercises.beat.${verdict}`, { number: index + 1, what });
        if (off === 0) return told;
        const missed = say(`exercises.beat.${off < 0 ? 'early' : 'late'}`, {
          off: roundTo(Math.abs(off), 2),
        });
        return `${told} ${missed}`;
      }),
    ],
    unread: [],
  };
}

/** A finger's breadth on the paper, s. Not a clinical number. */
const FINGER = 0.04;

/** How far a mark lies before (negative) or after the P of its beat, s; 0 on it, and where there is no mark or no P to hold it to. */
function offTheP({ wave }: FindTheP['beats'][number], mark: string | undefined): number {
  if (!mark || wave === null) return 0;
  const at = Number(mark);
  const [onset, end] = wave;
  if (at < onset - FINGER) return at - onset;
  return at > end + FINGER ? at - end : 0;
}

function goesWithTheBreath(
  { verdict, breaths, follow, chance }: GoesWithTheBreath,
  given: Given,
  say: Saying,
): Judged {
  const answer = given['goes-with-the-breath'] ?? '';
  if (answer === '') return nothing(say);
  const measured = follow !== null && chance !== null;
  const key = !measured ? 'not linked' : verdict === 'linked' ? 'linked' : 'measured';
  return {
    right: answer === verdict,
    lines: [
      say(`exercises.breath.${key}`, {
        breaths,
        follow: roundTo((follow ?? 0) * 100, 0),
        copies: say(`exercises.breath.copies.${chance?.matched === 0 ? 'none' : 'some'}`, {
          matched: chance?.matched ?? 0,
          surrogates: chance?.surrogates ?? 0,
        }),
        p: roundTo(chance?.p ?? 1, 3),
      }),
    ],
    unread: [],
  };
}

/** What a rate says that was displayed before or after the strip: neither a right display nor a wrong one, unless it is a multiple. */
const AT_ANOTHER_MINUTE = {
  agrees: 'nearby',
  'about double': 'about double',
  'about half': 'about half',
  'short window': 'elsewhere',
  unsteady: 'elsewhere',
  differs: 'elsewhere',
} as const;

function trustTheNumber(
  { during, shown, counted, verdict, shortWindow }: TrustTheNumber,
  given: Given,
  say: Saying,
): Judged {
  const answer = given['trust-the-number'] ?? '';
  if (answer === '') return nothing(say);
  const told = {
    double: roundTo(2 * counted, 0),
    half: roundTo(counted / 2, 0),
    window: shortWindow?.window ?? '',
    low: roundTo(shortWindow?.low ?? 0, 0),
    high: roundTo(shortWindow?.high ?? 0, 0),
  };
  return {
    right: answer === verdict,
    lines: [
      say(`exercises.trust.${during ? 'during' : 'around'}`, { counted: roundTo(counted, 0) }),
      ...shown.map(({ from, to, lowest, highest, ratios }) =>
        say(`exercises.trust.${from === to ? 'one' : 'several'}`, {
          from: roundTo(from, 0),
          to: roundTo(to, 0),
          lowest: roundTo(lowest, 0),
          highest: roundTo(highest, 0),
          low: ratios[0].toFixed(2),
          high: ratios[1].toFixed(2),
        }),
      ),
      ...(verdict === 'mixed' ? [say('exercises.trust.mixed')] : []),
      ...[...new Set(shown.map(({ relation }) => relation))].map((relation) =>
        say(`exercises.trust.${during ? relation : AT_ANOTHER_MINUTE[relation]}`, told),
      ),
    ],
    unread: [],
  };
}

/** An answer in whole mmHg may be rounded up or down. Not a clinical number. */
const ROUNDING = 1;

function estimateTheMean(facts: EstimateTheMean, given: Given, say: Saying): Judged {
  const written = (given.mean ?? '').trim();
  if (written === '') return nothing(say);
  const { systolic, diastolic, estimate, middle } = facts;
  const answer = readNumber(written);
  if (answer === null) return unread(['mean'], say, '72');
  const right = Math.abs(answer - estimate) <= ROUNDING;
  const key = right ? 'right' : Math.abs(answer - middle) <= ROUNDING ? 'middle' : 'wrong';
  return {
    right,
    lines: [
      say(`exercises.mean.${key}`, { systolic, diastolic, estimate: roundTo(estimate, 1) }),
      facts.given === null
        ? say('exercises.mean.notGiven')
        : say('exercises.mean.given', {
            given: facts.given,
            apart: roundTo(Math.abs(facts.given - estimate), 1),
          }),
    ],
    unread: [],
  };
}

function whichHealsFirst(
  { own, other, first }: WhichHealsFirst,
  given: Given,
  say: Saying,
): Judged {
  const answer = given['which-heals-first'] ?? '';
  if (answer === '') return nothing(say);
  return {
    right: answer === first,
    lines: [
      say('exercises.edges.days', {
        gap: roundTo(own.gap, 1),
        from: own.days[0],
        to: own.days[1],
        otherGap: roundTo(other.gap, 1),
        otherFrom: other.days[0],
        otherTo: other.days[1],
      }),
      say(`exercises.edges.${other.length}`),
    ],
    unread: [],
  };
}
