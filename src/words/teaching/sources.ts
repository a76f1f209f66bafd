import type { PublicFacts } from '../../privacy/public-facts.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { decimals } from '../numbers.js';
import { sayReason } from '../reason.js';
import type { LearnerSection } from './learner-section.js';

/** Every source that a number of the page rests on, each once; nothing is listed that the page does not use. */
export const sourcesPart: LearnerSection = (facts, language) => {
  const { learner } = language;
  return [
    { kind: 'heading', level: 2, text: learner.text('sources.title') },
    { kind: 'paragraph', said: learner.say('sources.intro') },
    {
      kind: 'list',
      ordered: false,
      items: [
        ...ofVitals(facts, language),
        ...ofStrips(facts, language),
        ...ofWound(facts, language),
      ],
    },
    { kind: 'paragraph', said: learner.say('sources.author') },
    { kind: 'paragraph', said: learner.say('sources.rest') },
  ];
};

function ofVitals({ vitals, story, exercises }: PublicFacts, { learner }: Language): Said[] {
  const estimated =
    vitals.channels.some(({ patient }) => patient.some(({ computed }) => computed)) ||
    exercises.some(({ name }) => name === 'estimate-the-mean');
  return [
    ...(vitals.lowPressure.value === null ? [] : [limitOf(vitals.lowPressure.value, learner)]),
    ...(vitals.systolicAlone === null
      ? []
      : [learner.say('sources.guidelineSystolic', {}, 'vitals.systolicAlone')]),
    ...(story.turns.some(({ verdict }) => verdict !== null)
      ? [learner.say('sources.device', {}, 'story.turns')]
      : []),
    ...(estimated ? [learner.say('sources.mean', {}, 'vitals.channels')] : []),
  ];
}

const limitOf = (
  { limit, chosenBy }: NonNullable<PublicFacts['vitals']['lowPressure']['value']>,
  learner: Language['learner'],
): Said =>
  chosenBy === 'clinic'
    ? learner.say('sources.chosenLimit', { limit: decimals(limit, 0) }, 'vitals.lowPressure')
    : learner.say('sources.guideline', {}, 'vitals.lowPressure');

function ofStrips({ strips }: PublicFacts, language: Language): Said[] {
  const { learner } = language;
  const ranges = strips.flatMap(({ analysis }) =>
    Object.values(analysis.measures).flatMap(({ range }) => (range ? [range.source] : [])),
  );
  const rates = strips.flatMap(({ analysis }) =>
    analysis.rhythms.flatMap(({ range }) => (range === null ? [] : [sayReason(range, language)])),
  );
  return [
    ...once(ranges).map((source) => learner.say('sources.ranges', { source }, 'strips')),
    ...once(rates).map((range) => learner.say('sources.rates', { range }, 'strips')),
    ...(strips.some(({ shown }) => shown.value !== null)
      ? [learner.say('sources.meter', {}, 'strips')]
      : []),
  ];
}

function ofWound({ wound, exercises }: PublicFacts, { learner }: Language): Said[] {
  if (wound === null) return [];
  const asked = exercises.some(({ name }) => name === 'which-heals-first');
  const strands = once(wound.layers.map(({ behaviour }) => behaviour.source));
  const open = wound.healing.value === 'left open';
  return [
    ...strands.map((source) => learner.say('sources.strand', { source }, 'wound.layers')),
    ...(wound.skin.value.kind === 'remove' || (asked && !open)
      ? [learner.say('sources.joined', {}, 'wound.skin')]
      : []),
    ...(open || asked ? [learner.say('sources.open', {}, 'wound.estimate')] : []),
  ];
}

const once = (texts: readonly string[]): string[] => [...new Set(texts)];
