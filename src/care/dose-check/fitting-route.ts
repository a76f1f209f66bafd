import { EARS, EYES } from '../../record/vocabulary.js';
import { type Said, warn } from './finding.js';
import type { PlannedMedicine } from './planned-medicine.js';

const IN_EYE: readonly string[] = EYES;
const IN_EAR: readonly string[] = EARS;

/** Routes on which food makes no difference. Common practice. */
const PAST_THE_STOMACH: readonly string[] = [...EYES, ...EARS, 'on the skin', 'under the skin'];

/** Whether a meal matters though it does not meet the medicine: insulin is injected when the patient eats. Common practice. */
const goesWithAMeal = ({ purpose, route, food }: PlannedMedicine): boolean =>
  purpose === 'diabetes' && route === 'under the skin' && food === 'with food';

/** The most mL that an eye or an ear holds at one time: more runs out, or is a dose by mouth. From memory, unverified. */
const MOST_IN_EYE = 0.1;
/** See above. From memory, unverified. */
const MOST_IN_EAR = 2;

/** Purposes for which something is put into an eye or an ear; any other is reached through the mouth. Common practice. */
const TREATED_THERE: readonly string[] = [
  'eye surface',
  'ear',
  'infection',
  'itching',
  'pain and swelling',
  'pain and swelling, rabbit',
  'pain',
];

/** A way in that hardly fits what is given: a liquid for the mouth that would be poured into an ear or an eye, or injected. */
export function unfitting(medicine: PlannedMedicine): Said[] {
  const { drug, purpose, route, food, give } = medicine;
  const there = IN_EYE.includes(route) || IN_EAR.includes(route);
  const said: [found: string, expected: string][] = [];
  if (PAST_THE_STOMACH.includes(route) && food !== 'either' && !goesWithAMeal(medicine)) {
    said.push([
      `${drug} ${route}, ${food}`,
      '"by mouth", or "food: either" where it is not swallowed',
    ]);
  }
  if (there && !TREATED_THERE.includes(purpose)) {
    said.push([
      `${drug} ${route} for "${purpose}"`,
      '"by mouth", or a purpose that is reached there',
    ]);
  }
  const most = IN_EYE.includes(route) ? MOST_IN_EYE : MOST_IN_EAR;
  if (there && give.unit === 'mL' && give.value > most) {
    said.push([
      `${give.written} of ${drug} ${route}`,
      `drops, or at most ${most} mL, which is what there is room for (from memory, unverified)`,
    ]);
  }
  const [first] = said;
  return first ? [warn('a route that hardly fits the medicine', 'route', first[0], first[1])] : [];
}
