import type { SystolicAlone } from '../../facts/case-facts.js';
import type { PublicFacts } from '../../privacy/public-facts.js';
import {
  type LowEpisode,
  lowTime,
  UPPER_END_OF_LOW_MEAN,
  wholeMinutes,
} from '../../vitals/pressure.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { decimals } from '../numbers.js';
import { inOnePassage } from '../owner/one-passage.js';
import type { LearnerSection } from './learner-section.js';

const FACT = 'vitals.lowPressure';

/** Whether mean pressure was low, between which bounds of time, and what came before it; else what systolic pressure alone says. */
export const pressurePart: LearnerSection = (facts, language) => [
  { kind: 'heading', level: 2, text: language.learner.text('pressure.title') },
  ...said(facts, language).map((passage) => ({ kind: 'paragraph' as const, said: passage })),
];

function said(facts: PublicFacts, language: Language): Said[] {
  const { learner } = language;
  const { lowPressure, systolicAlone } = facts.vitals;
  if (systolicAlone) return ofSystolic(systolicAlone.value, facts, language);
  if (lowPressure.value === null) {
    return [learner.say(`pressure.unknown.${lowPressure.why}`, {}, FACT)];
  }
  const { limit, episodes, chosenBy, read, computed } = lowPressure.value;
  return [
    ...(computed > 0 ? [learner.say('pressure.origin', { read, computed }, FACT)] : []),
    ...(episodes.length === 0
      ? [
          inOnePassage([
            learner.say('pressure.none', { limit }, FACT),
            ...nearlyLow(facts, language),
          ]),
        ]
      : [
          ...episodes.flatMap((episode) => told(episode, 'mean', limit, facts, language)),
          ...burden(facts, language),
          learner.say('pressure.why'),
        ]),
    chosenBy === 'clinic'
      ? learner.say('sources.chosenLimit', { limit }, FACT)
      : learner.say('pressure.source'),
  ];
}

/** The lowest mean pressure where it lies between the two ends that the guideline names: the limit used is the lower one. */
function nearlyLow({ vitals }: PublicFacts, { learner }: Language): Said[] {
  const index = vitals.channels.findIndex(({ channel }) => channel === 'mean');
  const lowest = vitals.channels[index]?.spread.value?.lowest;
  if (!lowest || lowest.value >= UPPER_END_OF_LOW_MEAN) return [];
  const values = { lowest: decimals(lowest.value, 0), at: decimals(lowest.minute, 0) };
  return [learner.say('pressure.nearly', values, `vitals.channels.${index}.spread`)];
}

function ofSystolic(
  { limit, ofSpecies, lowest, highest, count, episodes }: SystolicAlone,
  facts: PublicFacts,
  language: Language,
): Said[] {
  const { learner } = language;
  const fact = 'vitals.systolicAlone';
  const values = { limit, lowest: decimals(lowest, 0), highest: decimals(highest, 0), count };
  return [
    learner.say('pressure.onlySystolic', values, fact),
    ...(episodes.length === 0
      ? [learner.say('pressure.systolicNone', values, fact)]
      : [
          ...episodes.flatMap((episode) => told(episode, 'systolic', limit, facts, language)),
          learner.say('pressure.why'),
        ]),
    ...(ofSpecies ? [] : [learner.say('pressure.otherSpecies', {}, fact)]),
    learner.say('pressure.sourceSystolic'),
  ];
}

function burden({ story: { low } }: PublicFacts, { learner }: Language): Said[] {
  if (low === null) return [];
  const { minutes, area, limit } = low;
  const values = { minutes: decimals(minutes, 0), area: decimals(area, 0), limit };
  return [learner.say('pressure.burden', values, 'story.low')];
}

function told(
  episode: LowEpisode,
  which: 'mean' | 'systolic',
  limit: number,
  { anesthesia }: PublicFacts,
  { learner, trade }: Language,
): Said[] {
  const { from, to, before: last, after: next, unseen, lowest } = episode;
  const { least, most } = wholeMinutes(lowTime([episode]));
  const fact = which === 'mean' ? FACT : 'vitals.systolicAlone';
  const values = {
    which,
    limit,
    from: decimals(from, 0),
    to: decimals(to, 0),
    single: from === to ? 'yes' : 'no',
    last: decimals(last ?? 0, 0),
    next: decimals(next ?? 0, 0),
    least,
    most: most ?? 0,
    unseen: unseen ?? 'none',
    lowest: decimals(lowest.value, 0),
    at: decimals(lowest.minute, 0),
  };
  const bounds =
    last === null ? (next === null ? 'open' : 'since') : next === null ? 'until' : 'both';
  // A remark is written about what happened; it is not what happened.
  const before = anesthesia.events
    .filter(({ minute, what }) => minute <= from && what !== 'remark')
    .at(-1);
  return [
    inOnePassage([
      learner.say('pressure.low', values, fact),
      learner.say(`pressure.bounds.${bounds}`, values, fact),
      learner.say('pressure.lowest', values, fact),
    ]),
    ...(before
      ? [
          learner.say(
            'pressure.before',
            {
              event: trade.text(`events.${before.what}.learner`),
              minute: decimals(before.minute, 0),
            },
            'anesthesia.events',
          ),
        ]
      : []),
  ];
}
