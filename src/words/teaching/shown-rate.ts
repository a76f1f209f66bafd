import type { ShownRate, ShownStretch } from '../../facts/case-facts.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { decimals, times } from '../numbers.js';

/** What was displayed beside a strip, as it is told: each reading with its minute. */
type Shown = Pick<ShownRate, 'during' | 'shown' | 'alike'>;
/** As it is told beside the count. */
type Compared = Shown & Pick<ShownRate, 'isWhole'>;

/** The displayed rates with their minutes, without what they say of the count: for a question. */
export const shownNumbers = ({ shown }: Shown, learner: Language['learner']): string =>
  listed(shown, 'number', learner);

/** The displayed rates, each with its minute and with what it says of the count. */
export const shownAgainst = ({ shown }: Shown, learner: Language['learner']): string =>
  listed(shown, 'against', learner);

/** Each displayed rate with its minute, what it says of the count, and why. @param fact path of the facts that it rests on */
export function shownSaid(shown: Compared, fact: string, learner: Language['learner']): Said[] {
  const told = shownAgainst(shown, learner);
  return [
    learner.say(`strip.shown.${shown.during ? 'during' : 'around'}`, { shown: told }, fact),
    ...(shown.isWhole ? [] : [learner.say('strip.shown.beside', {}, fact)]),
    ...shownBetween(shown, fact, learner),
    ...relations(shown).map((relation) =>
      learner.say(`strip.shown.why.${whyOf(relation, shown.during)}`, {}, fact),
    ),
  ];
}

/** Readings that do not go with one another are told to be so. */
function shownBetween({ shown, alike }: Shown, fact: string, learner: Language['learner']): Said[] {
  return alike || shown.length < 2 ? [] : [learner.say('strip.shown.apart', {}, fact)];
}

/** Each relation once, in the order in which the readings show it. */
export const relations = ({ shown }: Shown): ShownStretch['relation'][] => [
  ...new Set(shown.map(({ relation }) => relation)),
];

/** A rate that was displayed at another minute proves neither a right display nor, if it differs, a wrong one. */
export const whyOf = (relation: ShownStretch['relation'], during: boolean) => {
  if (during) return relation;
  if (relation === 'agrees') return 'nearby';
  return relation === 'differs' || relation === 'unsteady' ? 'elsewhere' : relation;
};

function listed(
  shown: readonly ShownStretch[],
  how: 'number' | 'against',
  learner: Language['learner'],
): string {
  return shown
    .map(({ from, to, lowest, highest, ratios, relation }) => {
      const rates = printed([lowest, highest], whole);
      const minutes = printed([from, to], whole);
      const share = printed(ratios, times);
      return learner.text(`strip.shown.${how}`, {
        rates: oneOr(rates),
        lowest: rates[0],
        highest: rates[1],
        minutes: oneOr(minutes),
        from: minutes[0],
        to: minutes[1],
        ratios: oneOr(share),
        low: share[0],
        high: share[1],
        relation: learner.text(`strip.shown.relations.${relation}`),
      });
    })
    .join('; ');
}

/** First and last as they are printed. */
type Ends = readonly [string, string];

const whole = (value: number): string => decimals(value, 0);

const printed = ([from, to]: readonly [number, number], print: (value: number) => string): Ends => [
  print(from),
  print(to),
];

/** A stretch whose ends look alike in print is told as one number. */
const oneOr = ([from, to]: Ends): 'one' | 'other' => (from === to ? 'one' : 'other');
