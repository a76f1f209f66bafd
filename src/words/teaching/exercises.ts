import { hasOtherBeats } from '../../facts/other-origin.js';
import type { PublicFacts } from '../../privacy/public-facts.js';
import { mmhg } from '../../units/brands.js';
import { apartSpans } from '../../vitals/channel.js';
import { estimatedMean } from '../../vitals/pressure.js';
import type { Said } from '../handout.js';
import { readText } from '../handout-text.js';
import type { Language } from '../language.js';
import { decimals, twoDigits } from '../numbers.js';
import { inOnePassage } from '../owner/one-passage.js';
import { shownSaid } from './shown-rate.js';
import { whichStrip } from './strip-section.js';
import { whyApart } from './vitals.js';

/** A question that the record itself poses, with what the facts answer. */
export interface Exercise {
  readonly question: Said;
  readonly answer: readonly Said[];
}

type Strip = PublicFacts['strips'][number];

/** The questions of a record; each is asked only where the record holds what is needed to answer it. */
export function exercises(facts: PublicFacts, language: Language): Exercise[] {
  return [
    ...aboutPressure(facts, language),
    ...aboutRate(facts, language),
    ...aboutSensors(facts, language),
    ...aboutDoses(facts, language),
  ];
}

/** The questions as plain text, for students. */
export const questionSheet = (facts: PublicFacts, language: Language): string =>
  [
    `${language.learner.text('student.title')} (${facts.pseudonym})`,
    ...exercises(facts, language).map(({ question }, i) => `${i + 1}. ${readText(question)}`),
    '',
  ].join('\n');

/** Questions and answers as plain text, for the teacher alone. */
export const answerSheet = (facts: PublicFacts, language: Language): string =>
  [
    `${language.learner.text('student.answers.title')} (${facts.pseudonym})`,
    ...exercises(facts, language).map(
      ({ question, answer }, i) =>
        `${i + 1}. ${readText(question)}\n${answer.map((said) => `   ${readText(said)}`).join('\n')}`,
    ),
    language.learner.text('student.answers.draft'),
    '',
  ].join('\n\n');

const readingsOf = ({ vitals }: PublicFacts, name: string) =>
  vitals.channels.find(({ channel }) => channel === name)?.patient ?? [];

/** Minutes before the lowest pressure in which the question looks for events; as it says itself. Not a clinical number. */
const BEFORE = 10;

function aboutPressure(facts: PublicFacts, { learner, trade }: Language): Exercise[] {
  const diastolic = new Map(
    readingsOf(facts, 'diastolic').map(({ minute, value }) => [minute, value]),
  );
  const both = readingsOf(facts, 'systolic').filter(({ minute }) => diastolic.has(minute));
  const middle = both[Math.floor(both.length / 2)];
  if (!middle) return [];
  const low = diastolic.get(middle.minute) as number;
  const mean = facts.vitals.channels.find(({ channel }) => channel === 'mean');
  const shown = mean?.patient.find(
    ({ minute, computed }) => minute === middle.minute && !computed,
  )?.value;
  const numbers = {
    minute: decimals(middle.minute, 0),
    systolic: decimals(middle.value, 0),
    diastolic: decimals(low, 0),
  };
  const estimate = decimals(estimatedMean(mmhg(middle.value), mmhg(low)), 0);
  const lowest = mean?.spread.value?.lowest;
  const before = facts.anesthesia.events.filter(
    ({ minute }) => lowest && minute < lowest.minute && minute >= lowest.minute - BEFORE,
  );
  const meanwhile = facts.anesthesia.events.filter(({ minute }) => minute === lowest?.minute);
  const named = (events: typeof before): string =>
    events
      .map(({ what, note, minute }) => {
        const event = trade.text(`events.${what}.learner`);
        // What a remark says is what happened.
        return `${what === 'remark' && note !== null ? `${event}: ${note}` : event} (${decimals(minute, 0)})`;
      })
      .join('; ');
  return [
    {
      question: learner.say('student.pressureMean', numbers, 'vitals.channels'),
      answer: [
        learner.say('student.answers.mean', { ...numbers, estimate }, 'vitals.channels'),
        shown === undefined
          ? learner.say('student.answers.noMean', {}, 'vitals.channels')
          : learner.say(
              'student.answers.shownMean',
              { shown: decimals(shown, 0) },
              'vitals.channels',
            ),
      ],
    },
    ...(lowest
      ? [
          {
            question: learner.say('student.lowest', {}, 'vitals.channels'),
            answer: [
              learner.say(
                'student.answers.lowest',
                { value: decimals(lowest.value, 0), minute: decimals(lowest.minute, 0) },
                'vitals.channels',
              ),
              before.length === 0
                ? learner.say('student.answers.nothingBefore', {}, 'anesthesia.events')
                : learner.say(
                    'student.answers.before',
                    { events: named(before) },
                    'anesthesia.events',
                  ),
              ...(meanwhile.length === 0
                ? []
                : [
                    learner.say(
                      'student.answers.meanwhile',
                      { events: named(meanwhile) },
                      'anesthesia.events',
                    ),
                  ]),
            ],
          },
        ]
      : []),
  ];
}

/** Length of one count, s. Six seconds times ten: common practice. */
const COUNT = 6;

function aboutRate(facts: PublicFacts, language: Language): Exercise[] {
  const { strips } = facts;
  const { learner } = language;
  const index = strips.findIndex(
    ({ analysis }) => analysis.rate !== null && isReadable(analysis, 2 * COUNT),
  );
  const strip = strips[index];
  const rate = strip?.analysis.rate;
  if (!strip || !rate) return [];
  const fact = `strips.${index}`;
  const asked = (key: string) =>
    inOnePassage([...whichStrip(facts, index, language), learner.say(`student.${key}`, {}, fact)]);
  const counted = (from: number) =>
    strip.analysis.beats.filter(({ time }) => time >= from && time < from + COUNT).length;
  const [first, second] = [counted(0), counted(COUNT)];
  return [
    {
      question: asked('count6'),
      answer: [
        learner.say(
          'student.answers.count6',
          {
            first,
            firstRate: 10 * first,
            second,
            secondRate: 10 * second,
            apart: Math.abs(10 * first - 10 * second),
            mean: decimals(rate.mean, 1),
          },
          `${fact}.analysis.beats`,
        ),
      ],
    },
    {
      question: asked('intervals'),
      answer: [
        learner.say(
          'strip.intervals',
          {
            shortest: decimals(rate.shortest * 1000, 0),
            fastest: decimals(60 / rate.shortest, 0),
            longest: decimals(rate.longest * 1000, 0),
            slowest: decimals(60 / rate.longest, 0),
          },
          `${fact}.analysis.rate`,
        ),
      ],
    },
    ...trust(strip, fact, asked('trust'), learner),
  ];
}

function trust(
  { shown, analysis }: Strip,
  fact: string,
  question: Said,
  learner: Language['learner'],
): Exercise[] {
  if (shown.value === null || analysis.rate === null) return [];
  return [
    {
      question,
      answer: [
        learner.say('strip.mean', { rate: decimals(analysis.rate.mean, 1) }, `${fact}.analysis`),
        ...shownSaid(shown.value, `${fact}.shown`, learner),
        ...(hasOtherBeats(analysis) ? [learner.say('rhythm.pulse', {}, `${fact}.analysis`)] : []),
        learner.say('strip.doNext'),
      ],
    },
  ];
}

/** Whether a strip can be read from its first sample on, for some seconds. */
const isReadable = ({ quality }: Strip['analysis'], seconds: number): boolean =>
  (quality.spans[0]?.readable ?? false) && (quality.spans[0]?.to ?? 0) >= seconds;

function aboutSensors({ vitals }: PublicFacts, { learner, trade }: Language): Exercise[] {
  const answer = vitals.channels.flatMap((channel, index) =>
    apartSpans(channel).map(({ from, to, why }) =>
      learner.say(
        'student.answers.apart',
        {
          channel: trade.text(`channels.${channel.channel}.learner`),
          from: decimals(from, 0),
          to: decimals(to, 0),
          why: whyApart(why, learner),
        },
        `vitals.channels.${index}.apart`,
      ),
    ),
  );
  return answer.length === 0
    ? []
    : [{ question: learner.say('student.apart', {}, 'vitals.channels'), answer }];
}

function aboutDoses({ anesthesia, patient }: PublicFacts, { learner }: Language): Exercise[] {
  const answer = anesthesia.drugs.flatMap(({ drug, perKilogram: { value, unit } }, index) =>
    unit === 'mL'
      ? []
      : [
          learner.say(
            'student.answers.dose',
            {
              drug,
              dose: value,
              unit,
              amount: twoDigits(value * patient.roundedWeight),
            },
            `anesthesia.drugs.${index}`,
          ),
        ],
  );
  const weight = decimals(patient.roundedWeight, 1);
  return answer.length === 0
    ? []
    : [
        {
          question: learner.say(
            'student.dose',
            { weight },
            'anesthesia.drugs',
            'patient.roundedWeight',
          ),
          answer,
        },
      ];
}
