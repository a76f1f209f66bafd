import type { PublicFacts } from '../../privacy/public-facts.js';
import type { LowEpisode } from '../../vitals/pressure.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { decimals } from '../numbers.js';
import type { LearnerSection } from './learner-section.js';

const FACT = 'vitals.lowPressure';

/** Whether mean pressure was low, for how long at most, and what came before it. */
export const pressurePart: LearnerSection = (facts, language) => {
  const { learner } = language;
  const low = facts.vitals.lowPressure;
  const said: Said[] =
    low.value === null
      ? [learner.say('pressure.unknown', {}, FACT)]
      : low.value.episodes.length === 0
        ? [learner.say('pressure.none', { limit: low.value.limit }, FACT)]
        : [
            ...low.value.episodes.flatMap((episode) =>
              told(episode, (low.value as { limit: number }).limit, facts, language),
            ),
            ...burden(facts, language),
            learner.say('pressure.why'),
          ];
  if (low.value !== null) said.push(learner.say('pressure.source'));
  return [
    { kind: 'heading', level: 2, text: learner.text('pressure.title') },
    ...said.map((passage) => ({ kind: 'paragraph' as const, said: passage })),
  ];
};

function burden({ story: { low } }: PublicFacts, { learner }: Language): Said[] {
  if (low === null) return [];
  const { minutes, area, limit } = low;
  const values = { minutes: decimals(minutes, 0), area: decimals(area, 0), limit };
  return [learner.say('pressure.burden', values, 'story.low')];
}

function told(
  { from, to, ended, lowest }: LowEpisode,
  limit: number,
  { anesthesia }: PublicFacts,
  { learner, trade }: Language,
): Said[] {
  const values = {
    limit,
    from: decimals(from, 0),
    to: decimals(to, 0),
    minutes: decimals(to - from, 0),
    lowest: decimals(lowest.value, 0),
    at: decimals(lowest.minute, 0),
  };
  // A remark is written about what happened; it is not what happened.
  const before = anesthesia.events
    .filter(({ minute, what }) => minute <= from && what !== 'remark')
    .at(-1);
  return [
    learner.say(ended ? 'pressure.low' : 'pressure.lowOpen', values, FACT),
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
