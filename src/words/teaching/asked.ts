import type {
  CountTheRate,
  EstimateTheMean,
  ExerciseFacts,
  FindTheP,
  GoesWithTheBreath,
  TrustTheNumber,
  WhichHealsFirst,
} from '../../facts/exercises.js';
import { hasOtherBeats } from '../../facts/other-origin.js';
import type { PublicFacts } from '../../privacy/public-facts.js';
import type { Asked, AskedOption, Block, ExerciseBlock, Figure, Said } from '../handout.js';
import type { Language } from '../language.js';
import { aligned, decimals } from '../numbers.js';
import { inOnePassage } from '../owner/one-passage.js';
import type { CaseFigures, LearnerSection } from './learner-section.js';
import { shownNumbers, shownSaid } from './shown-rate.js';
import { titled, whichStrip } from './strip-section.js';

/** What a case asks of its reader. */
export const exercisesPart: LearnerSection = (facts, language, figures) => {
  const asked = exerciseBlocks(facts, language, figures);
  const { learner } = language;
  return asked.length === 0
    ? []
    : [
        { kind: 'heading', level: 2, text: learner.text('exercises.title') },
        { kind: 'paragraph', said: learner.say('exercises.intro') },
        ...asked,
      ];
};

/** The answers, for a sheet of their own; empty where nothing is asked. */
export const answersPart: LearnerSection = (facts, language, figures) =>
  exerciseBlocks(facts, language, figures).flatMap(({ title, answer }): Block[] => [
    { kind: 'heading', level: 2, text: title },
    ...answer.map((said): Block => ({ kind: 'paragraph', said })),
  ]);

const exerciseBlocks = (
  facts: PublicFacts,
  language: Language,
  figures: CaseFigures,
): ExerciseBlock[] =>
  facts.exercises.map((exercise, index): ExerciseBlock => {
    const { learner } = language;
    const words = new Words(exercise.name, `exercises.${index}`, language);
    const { question, asks, answer, pictured } = worded(exercise, words, facts);
    const figure = figures.exercises[exercise.name];
    const strip = 'strip' in exercise ? exercise.strip : null;
    const title = words.text('title');
    return {
      kind: 'exercise',
      name: exercise.name,
      title: strip === null ? title : titled(title, facts, strip, language),
      question,
      figure:
        figure && pictured
          ? pictureOf(exercise.name, figure, {
              ...pictured,
              caption: inOnePassage([
                ...(strip === null ? [] : whichStrip(facts, strip, language)),
                pictured.caption,
              ]),
            })
          : null,
      asks,
      answer,
      labels: { check: learner.text('exercises.check'), answer: learner.text('exercises.show') },
    };
  });

type Values = Readonly<Record<string, string | number>>;

/** The words of one question, each passage resting on its facts. */
class Words {
  constructor(
    private readonly name: string,
    readonly fact: string,
    readonly language: Language,
  ) {}

  text(key: string, values: Values = {}): string {
    return this.language.learner.text(`exercises.${this.name}.${key}`, values);
  }

  say(key: string, values: Values = {}, ...facts: readonly string[]): Said {
    return this.language.learner.say(
      `exercises.${this.name}.${key}`,
      values,
      ...(facts.length > 0 ? facts : [this.fact]),
    );
  }

  options(...names: readonly string[]): AskedOption[] {
    return names.map((name) => ({ name, label: this.text(name) }));
  }
}

interface Worded {
  readonly question: readonly Said[];
  readonly asks: Asked;
  readonly answer: readonly Said[];
  /** What is said of the picture; null where there is none. */
  readonly pictured: { readonly caption: Said; readonly alternative: string } | null;
}

function worded(exercise: ExerciseFacts, words: Words, facts: PublicFacts): Worded {
  switch (exercise.name) {
    case 'count-the-rate':
      return countTheRate(exercise, words, facts);
    case 'find-the-p':
      return findTheP(exercise, words, facts);
    case 'goes-with-the-breath':
      return goesWithTheBreath(exercise, words);
    case 'trust-the-number':
      return trustTheNumber(exercise, words, facts);
    case 'estimate-the-mean':
      return estimateTheMean(exercise, words);
    case 'which-heals-first':
      return whichHealsFirst(exercise, words);
  }
}

const pictureOf = (
  name: string,
  figure: Figure,
  { caption, alternative }: NonNullable<Worded['pictured']>,
) => ({ kind: 'figure' as const, name, figure, caption, alternative });

function countTheRate(
  { strip, mean, windows }: CountTheRate,
  words: Words,
  { strips }: PublicFacts,
): Worded {
  const lead = strips[strip]?.lead ?? '';
  const seconds = (one: CountTheRate['windows'][number]) => decimals(one.to - one.from, 1);
  const [shortest, longest] = [windows[0], windows.at(-1)];
  return {
    question: [words.say('question')],
    pictured: {
      caption: words.say('figure', { lead }),
      alternative: words.text('alternative', { lead }),
    },
    asks: {
      kind: 'numbers',
      fields: windows.map(({ from, to }, index) => ({
        name: `window-${index}`,
        label: words.text('field', { from: decimals(from, 1), to: decimals(to, 1) }),
        unit: words.text('unit'),
      })),
    },
    answer: [
      ...windows.map((window, index) =>
        words.say(
          'answer',
          {
            beats: window.beats,
            seconds: seconds(window),
            rate: decimals(window.rate, 0),
            error: signed(window.error * 100),
            mean: decimals(mean, 1),
          },
          `${words.fact}.windows.${index}`,
        ),
      ),
      ...(shortest && longest
        ? [
            words.say('lesson', {
              short: seconds(shortest),
              shortStep: decimals(60 / (shortest.to - shortest.from), 1),
              long: seconds(longest),
              longStep: decimals(60 / (longest.to - longest.from), 1),
            }),
          ]
        : []),
    ],
  };
}

/** With its sign, and the true minus of print. */
const signed = (value: number): string => {
  const told = decimals(Math.abs(value), 1);
  if (Number(told) === 0) return '0';
  return `${value < 0 ? '−' : '+'}${told}`;
};

function findTheP({ strip, beats, from, to }: FindTheP, words: Words, facts: PublicFacts): Worded {
  const lead = facts.strips[strip]?.lead ?? '';
  return {
    question: [words.say('question')],
    pictured: {
      caption: words.say('figure', { lead, from: decimals(from, 1), to: decimals(to, 1) }),
      alternative: words.text('alternative', { lead, beats: beats.length }),
    },
    asks: {
      kind: 'each',
      items: beats.map((_, index) => ({
        name: `beat-${index}`,
        label: words.text('beat', { number: index + 1 }),
      })),
      options: words.options('there', 'none', 'withheld'),
    },
    answer: [
      inOnePassage(
        beats.map(({ p, pr }, index) => {
          const number = index + 1;
          const fact = `${words.fact}.beats.${index}`;
          if (p !== 'there') return words.say(`answer.${p}`, { number }, fact);
          return pr === null
            ? words.say('answer.thereOnly', { number }, fact)
            : words.say('answer.there', { number, pr: aligned(pr, 3) }, fact);
        }),
      ),
      words.say('lesson'),
    ],
  };
}

function goesWithTheBreath(
  { verdict, follow, chance, breaths }: GoesWithTheBreath,
  words: Words,
): Worded {
  const percent = (share: number) => decimals(share * 100, 0);
  const answer =
    verdict === 'linked'
      ? [
          words.say('answer.linked', {
            breaths,
            follow: percent(follow ?? 0),
            surrogates: chance?.surrogates ?? 0,
            matched: chance?.matched ?? 0,
            p: decimals(chance?.p ?? 1, 3),
          }),
        ]
      : [
          words.say('answer.not linked', { breaths }),
          ...(follow === null ? [] : [words.say('answer.measured', { follow: percent(follow) })]),
        ];
  return {
    question: [words.say('question')],
    pictured: { caption: words.say('figure'), alternative: words.text('alternative') },
    asks: { kind: 'choice', options: words.options('linked', 'not linked') },
    answer,
  };
}

function trustTheNumber(facts: TrustTheNumber, words: Words, { strips }: PublicFacts): Worded {
  const { learner } = words.language;
  const { strip, during, counted, verdict } = facts;
  const analysis = strips[strip]?.analysis;
  return {
    question: [
      words.say(
        `question.${during ? 'during' : 'around'}`,
        { shown: shownNumbers(facts, learner) },
        `${words.fact}.shown`,
      ),
    ],
    pictured: null,
    asks: {
      kind: 'choice',
      options: words.options(
        'agrees',
        'about double',
        'about half',
        'short window',
        'unsteady',
        'differs',
        'mixed',
      ),
    },
    answer: [
      words.say('answer', { verdict: words.text(verdict), counted: decimals(counted, 0) }),
      ...shownSaid({ ...facts, isWhole: true }, `${words.fact}.shown`, learner),
      ...(analysis && hasOtherBeats(analysis)
        ? [learner.say('rhythm.pulse', {}, `strips.${strip}.analysis`)]
        : []),
      learner.say('strip.doNext'),
    ],
  };
}

function estimateTheMean(
  { minute, systolic, diastolic, estimate, middle, given }: EstimateTheMean,
  words: Words,
): Worded {
  const told = {
    minute: decimals(minute, 0),
    systolic: decimals(systolic, 0),
    diastolic: decimals(diastolic, 0),
    estimate: decimals(estimate, 0),
    middle: decimals(middle, 1),
  };
  return {
    question: [words.say('question', told)],
    pictured: null,
    asks: { kind: 'numbers', fields: [{ name: 'mean', label: words.text('field'), unit: 'mmHg' }] },
    answer: [
      words.say('answer', told),
      given === null
        ? words.say('notGiven')
        : words.say('given', {
            given: decimals(given, 0),
            apart: decimals(Math.abs(given - estimate), 1),
          }),
    ],
  };
}

function whichHealsFirst({ own, other, first }: WhichHealsFirst, words: Words): Worded {
  const told = {
    gap: decimals(own.gap, 1),
    from: own.days[0],
    to: own.days[1],
    otherGap: decimals(other.gap, 1),
    otherFrom: other.days[0],
    otherTo: other.days[1],
  };
  return {
    question: [words.say(`question.${own.healing}`, told)],
    pictured: null,
    asks: { kind: 'choice', options: words.options('own', 'other', 'both') },
    answer: [
      words.say(`answer.${first}`),
      words.say(`days.${own.healing}`, told),
      words.say('lesson'),
    ],
  };
}
