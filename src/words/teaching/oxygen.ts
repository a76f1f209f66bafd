import { LOW_SATURATION } from '../../vitals/oxygen.js';
import { decimals } from '../numbers.js';
import { inOnePassage } from '../owner/one-passage.js';
import type { LearnerSection } from './learner-section.js';

const FACT = 'vitals.lowOxygen';

/** Many minutes of low oxygen saturation, and whether the record tells why; nothing where there were none. */
export const oxygenPart: LearnerSection = ({ vitals: { lowOxygen } }, { learner }) => {
  if (!lowOxygen) return [];
  const limit = LOW_SATURATION;
  return [
    { kind: 'heading', level: 2, text: learner.text('oxygen.title') },
    ...lowOxygen.value.map(({ from, to, lowest, told }) => ({
      kind: 'paragraph' as const,
      said: inOnePassage([
        learner.say(
          'oxygen.low',
          {
            limit,
            from: decimals(from, 0),
            to: decimals(to, 0),
            lowest: decimals(lowest.value, 0),
            at: decimals(lowest.minute, 0),
          },
          FACT,
        ),
        learner.say(
          `oxygen.told.${told?.by ?? 'nothing'}`,
          { minute: decimals(told?.minute ?? 0, 0) },
          FACT,
        ),
      ]),
    })),
    { kind: 'paragraph', said: learner.say('oxygen.why') },
    { kind: 'paragraph', said: learner.say('oxygen.source', { limit }, FACT) },
  ];
};
