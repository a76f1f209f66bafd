import type { AsNeededFacts, HomeCase } from '../../facts/case-facts.js';
import { sameDrug } from '../../record/formulary-schema.js';
import { MOST_DOSES } from '../../record/medicine-schema.js';
import type { Block, Cell, Said } from '../handout.js';
import type { Language } from '../language.js';
import {
  givenHere,
  howToGive,
  isAway,
  measured,
  syringePicture,
  watchFor,
  whatAndWhy,
} from './one-medicine.js';
import { inOnePassage } from './one-passage.js';

/** Not a clinical number: lines to write on that stand beside a medicine; a sheet of paper takes the rest. */
const MOST_LINES = 12;

/**
 * The medicines that are given only as needed: when, how much, how long to wait, how often at most, from and until when.
 * Beside each stand as many lines to write on as there are doses to give, since the next one is counted from the last.
 */
export const onlyAsNeeded = (facts: HomeCase, language: Language): Block => {
  const { owner } = language;
  return {
    kind: 'table',
    caption: owner.text('asNeeded.caption'),
    captionBy: 'heading',
    columns: [
      { title: owner.text('medicines.medicine'), align: 'start', share: 48 },
      { title: owner.text('asNeeded.when'), align: 'start', share: 52 },
    ],
    rows: facts.home.asNeeded.map((medicine, index) => row(facts, medicine, index, language)),
  };
};

function row(facts: HomeCase, medicine: AsNeededFacts, index: number, language: Language): Cell[] {
  const { owner } = language;
  const at = `home.asNeeded.${index}`;
  const doses = Math.min(medicine.mostDoses.value, medicine.enoughFor.value ?? MOST_DOSES);
  const lines = Math.min(doses, MOST_LINES);
  const how = [
    owner.say('asNeeded.if', { sign: withoutStop(medicine.sign.value) }, `${at}.sign`),
    howToGive(medicine, at, language),
    ...measured(medicine, at, language),
  ];
  return [
    {
      kind: 'said',
      said: [
        whatAndWhy(medicine, at, language),
        inOnePassage(how),
        inOnePassage([
          ...limits(facts, index, language),
          ...(lines < doses ? [owner.say('asNeeded.more', {}, `${at}.mostDoses`)] : []),
          watchFor(medicine, { species: facts.patient.species.value, end: 'known' }, language),
        ]),
      ],
    },
    {
      kind: 'lines',
      labels: Array.from({ length: lines }, (_, i) =>
        owner.text('asNeeded.line', { number: i + 1 }),
      ),
      ...syringePicture(medicine, at, facts.home.medicines.length + index + 1, language),
    },
  ];
}

/** How long to wait, how often at most, and between which moments: what a later sheet is held against as well. */
export function limits(facts: HomeCase, index: number, language: Language): Said[] {
  const { owner, clock } = language;
  const { medicines: timed, asNeeded } = facts.home;
  const medicine = asNeeded[index] as AsNeededFacts;
  const at = `home.asNeeded.${index}`;
  const apart = { hours: medicine.apart.value };
  const from = medicine.notBefore.value;
  const most = medicine.mostDoses.value;
  const enough = medicine.enoughFor.value;
  const alsoHours = timed.some(({ drug }) => sameDrug(drug, medicine.drug));
  const often =
    most === 1
      ? [owner.say('asNeeded.once', {}, `${at}.mostDoses`)]
      : [
          owner.say('asNeeded.apart', apart, `${at}.apart`),
          owner.say(
            'asNeeded.most',
            {
              inDay: medicine.mostInDay.value,
              limit: medicine.mostInAll.value === null ? 'day' : 'both',
              inAll: medicine.mostInAll.value ?? 0,
            },
            `${at}.mostInDay`,
            `${at}.mostInAll`,
          ),
        ];
  return [
    ...givenHere(medicine, at, isAway(facts), language),
    owner.say(
      'asNeeded.notBefore',
      { day: clock.shortDay(from), time: clock.time(from) },
      `${at}.notBefore`,
    ),
    // Many take midnight for the end of its day.
    ...(from.slice(11, 16) === '00:00'
      ? [owner.say('medicines.midnight', {}, `${at}.notBefore`)]
      : []),
    ...often,
    ...(alsoHours ? [owner.say('asNeeded.alsoHours', apart, `${at}.apart`)] : []),
    ...(enough !== null && enough < most
      ? [
          owner.say('asNeeded.enough', { count: enough }, `${at}.enoughFor`),
          owner.say('asNeeded.until', untilOf(medicine, 'no', language), `${at}.until`),
        ]
      : [owner.say('asNeeded.until', untilOf(medicine, 'yes', language), `${at}.until`)]),
  ];
}

/** Who needs it seldom has some left, and must not keep it for another time. */
const untilOf = ({ until }: AsNeededFacts, left: 'yes' | 'no', { clock }: Language) => ({
  day: clock.shortDay(until.value),
  left,
});

/** What completes a sentence brings no stop of its own. */
export const withoutStop = (text: string): string => text.trim().replace(/[.!]+$/, '');
