import { syringe } from '../../draw/syringe.js';
import type { HomeCase, HomeMedicine } from '../../facts/case-facts.js';
import { HOLDERS } from '../../record/medicine-schema.js';
import { unitOf } from '../../record/quantity.js';
import { EYES, type Species } from '../../record/vocabulary.js';
import type { FigureBlock, Said } from '../handout.js';
import type { Language } from '../language.js';
import { amount } from '../numbers.js';
import { inOnePassage } from './one-passage.js';

/** Where the facts of a medicine stand: `home.medicines.0`. */
export type FactsAt = string;

/** What it is called, and what for. */
export const whatAndWhy = (medicine: HomeMedicine, at: FactsAt, language: Language): Said => {
  const { owner, purposes } = language;
  return inOnePassage([
    owner.say(
      'medicines.what',
      { drug: medicine.drug, strength: onLabel(medicine.strength, language) },
      `${at}.drug`,
    ),
    owner.say(
      'medicines.why',
      { purpose: purposes.text(`${medicine.purpose}.owner`) },
      `${at}.purpose`,
    ),
  ]);
};

/** A strength in the words of the reader's language: `50 mg/tableta`. @param strength as the record writes it */
export function onLabel(strength: string, { trade }: Language): string {
  const [mass = '', per = ''] = strength.split('/').map((part) => part.trim());
  const form = unitOf(per, HOLDERS);
  return form ? `${mass}/${trade.text(`holders.${form}.owner`)}` : strength;
}

/** How much, which way and whether with food. */
export function howToGive(medicine: HomeMedicine, at: FactsAt, language: Language): Said {
  const { owner, trade } = language;
  return owner.say(
    'medicines.give',
    {
      amount: amountAtOnce(medicine, language),
      route: trade.text(`routes.${medicine.route}.owner`),
      food: { 'with food': 'with', 'without food': 'without', either: 'either' }[medicine.food],
    },
    `${at}.give`,
    `${at}.route`,
    `${at}.food`,
  );
}

/** `1 ½ tablets` */
export function amountAtOnce({ give }: HomeMedicine, { trade }: Language): string {
  return trade.text(`amounts.${give.unit}.owner`, {
    // Half a tablet is said in the singular.
    count: Math.max(1, give.value),
    shown: amount(give.value, give.unit),
  });
}

const isEye = (route: string): boolean => EYES.some((one) => one === route);

/** With what the amount is measured, or how the tablet is cut; and how drops get into an eye. */
export function measured(
  { measure, route }: HomeMedicine,
  at: FactsAt,
  language: Language,
): Said[] {
  const { owner } = language;
  const eye = isEye(route) ? [owner.say('medicines.eye', {}, `${at}.route`)] : [];
  switch (measure.value.kind) {
    case 'whole':
    case 'smeared':
      return eye;
    case 'cut':
      return [owner.say('medicines.cut', { into: measure.value.into }, `${at}.measure`), ...eye];
    case 'syringe': {
      const { capacity, graduation } = measure.value.syringe;
      return [
        owner.say('medicines.syringe', { capacity, graduation: `${graduation}` }, `${at}.measure`),
        ...eye,
      ];
    }
  }
}

/** The syringe with its plunger at the line to fill to; nothing for what is not measured in one. @param number of the medicine on the sheet */
export function syringePicture(
  medicine: HomeMedicine,
  at: FactsAt,
  number: number,
  language: Language,
): { figure?: FigureBlock } {
  const { measure, give } = medicine;
  const { owner } = language;
  if (measure.value.kind !== 'syringe') return {};
  const { capacity, graduation } = measure.value.syringe;
  const label = amountAtOnce(medicine, language);
  const written = (millilitres: number) => amount(millilitres, 'mL');
  return {
    figure: {
      kind: 'figure',
      name: `syringe-${number}`,
      figure: {
        kind: 'drawing',
        drawing: syringe({ capacity, graduation, amount: give.value, label, written }),
      },
      caption: owner.say('medicines.fill', {}, `${at}.measure`),
      alternative: owner.text('medicines.filled', { capacity, label }),
    },
  };
}

/** Whether the home has another time zone than the clinic, so that hours need to be told apart. */
export const isAway = ({ home, identity }: HomeCase): boolean =>
  home.timeZone.value !== identity.clinic.timeZone;

/** The last dose that the clinic gave; nothing where it gave none. @param away whether the home has another clock */
export function givenHere(
  { lastGiven }: HomeMedicine,
  at: FactsAt,
  away: boolean,
  { owner, clock }: Language,
): Said[] {
  const { value: given } = lastGiven;
  if (given === null) return [];
  return [
    owner.say(
      'medicines.clinic',
      { day: clock.shortDay(given), time: clock.time(given), by: away ? 'ours' : 'one' },
      `${at}.lastGiven`,
    ),
  ];
}

/** What to watch for while it is given. @param end whether it ends with what was handed out, or more has to be fetched in time */
export const watchFor = (
  { purpose }: HomeMedicine,
  { species, end }: { readonly species: Species; readonly end: 'known' | 'open' },
  { purposes }: Language,
): Said => purposes.say(`${purpose}.watch`, { species, end }, 'patient.species');
