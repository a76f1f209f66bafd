import type { PublicFacts } from '../../privacy/public-facts.js';
import type { Language } from '../language.js';
import { decimals } from '../numbers.js';
import type { LearnerSection } from './learner-section.js';

/** Minutes after which hours are easier to read. Not a clinical number. */
const IN_HOURS = 180;

/**
 * That the patient died, said before anything else of the case, in plain words; of the cause no more than the record says.
 * Nothing where the patient went home.
 */
export const deathPart: LearnerSection = ({ death }, language) => {
  if (death === null) return [];
  const { learner } = language;
  const cause =
    death.said === null
      ? learner.say('death.noCause', {}, 'death.said')
      : learner.say('death.said', { said: death.said }, 'death.said');
  return [
    { kind: 'heading', level: 2, text: learner.text('death.title') },
    { kind: 'paragraph', said: when(death, language) },
    { kind: 'paragraph', said: cause },
    { kind: 'paragraph', said: learner.say('death.why') },
  ];
};

function when({ minute, afterwards }: NonNullable<PublicFacts['death']>, { learner }: Language) {
  if (afterwards === 0) {
    return learner.say('death.under', { minute: decimals(minute, 0) }, 'death.minute');
  }
  const inHours = afterwards > IN_HOURS;
  return learner.say(
    'death.after',
    {
      span: Math.round(inHours ? afterwards / 60 : afterwards),
      unit: inHours ? 'hours' : 'minutes',
    },
    'death.afterwards',
  );
}
