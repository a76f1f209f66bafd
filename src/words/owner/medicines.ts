import type { MedicineFacts } from '../../facts/case-facts.js';
import type { Cell, Said } from '../handout.js';
import type { Language } from '../language.js';
import { amount } from '../numbers.js';
import type { OwnerSection } from './owner-sheet.js';

/** Every medicine with its amount, its times and a box to tick for each dose. */
export const medicines: OwnerSection = ({ home }, language) => {
  const { owner, purposes } = language;
  const heading = {
    kind: 'heading' as const,
    level: 2 as const,
    text: owner.text('medicines.title'),
  };
  if (home.medicines.length === 0) {
    return [
      heading,
      { kind: 'paragraph', said: owner.say('medicines.none', {}, 'home.medicines') },
    ];
  }
  const watch = [...new Set(home.medicines.map(({ purpose }) => purpose))];
  return [
    heading,
    {
      kind: 'table',
      caption: owner.text('medicines.caption'),
      columns: [
        { title: owner.text('medicines.medicine'), align: 'start', share: 26 },
        { title: owner.text('medicines.how'), align: 'start', share: 34 },
        { title: owner.text('medicines.when'), align: 'start', share: 40 },
      ],
      rows: home.medicines.map((medicine, index) => row(medicine, index, language)),
    },
    {
      kind: 'list',
      ordered: false,
      items: [
        owner.say('medicines.rule'),
        ...watch.map((purpose) => purposes.say(`${purpose}.watch`)),
      ],
    },
  ];
};

function row(
  medicine: MedicineFacts,
  index: number,
  { owner, purposes, trade, clock }: Language,
): Cell[] {
  const fact = (name: string) => `home.medicines.${index}.${name}`;
  const doses = medicine.doses.value;
  const last = doses.at(-1) as string;
  const count = doses.length;
  const how: Said[] = [
    owner.say(
      'medicines.give',
      {
        amount: trade.text(`amounts.${medicine.give.unit}.owner`, {
          // Half a tablet is said in the singular.
          count: Math.max(1, medicine.give.value),
          shown: amount(medicine.give.value, medicine.give.unit),
        }),
        route: trade.text(`routes.${medicine.route}.owner`),
        food: { 'with food': 'with', 'without food': 'without', either: 'either' }[medicine.food],
      },
      fact('give'),
      fact('route'),
      fact('food'),
    ),
    medicine.rhythm.kind === 'every'
      ? owner.say(
          'medicines.every',
          { hours: medicine.rhythm.hours, count },
          fact('rhythm'),
          fact('doses'),
        )
      : owner.say(
          'medicines.at',
          {
            times: medicine.rhythm.times.map((time) => clock.time(`2000-01-01T${time}`)).join(', '),
            count,
          },
          fact('rhythm'),
          fact('doses'),
        ),
  ];
  if (medicine.lastGiven.value !== null) {
    const given = medicine.lastGiven.value;
    how.push(
      owner.say(
        'medicines.clinic',
        { day: clock.shortDay(given), time: clock.time(given) },
        fact('lastGiven'),
      ),
    );
  }
  how.push(
    owner.say(
      'medicines.last',
      { day: clock.shortDay(last), time: clock.time(last) },
      fact('doses'),
    ),
  );
  if (medicine.dispensed.value !== null && medicine.dispensed.value.value > medicine.needed.value) {
    how.push(owner.say('medicines.leftover', {}, fact('dispensed'), fact('needed')));
  }
  return [
    {
      kind: 'said',
      said: [
        owner.say(
          'medicines.what',
          { drug: medicine.drug, strength: medicine.strength },
          fact('drug'),
        ),
        owner.say(
          'medicines.why',
          { purpose: purposes.text(`${medicine.purpose}.owner`) },
          fact('purpose'),
        ),
      ],
    },
    { kind: 'said', said: how },
    {
      kind: 'ticks',
      labels: doses.map((dose) =>
        owner.text('medicines.tick', { day: clock.shortDay(dose), time: clock.time(dose) }),
      ),
    },
  ];
}
