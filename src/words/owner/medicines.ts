import { syringe } from '../../draw/syringe.js';
import type { HomeFacts, MedicineFacts } from '../../facts/case-facts.js';
import { HOLDERS } from '../../record/medicine-schema.js';
import { unitOf } from '../../record/quantity.js';
import { EYES, type Species } from '../../record/vocabulary.js';
import type { Cell, FigureBlock, GridDay, Said, TickDay, TickGrid } from '../handout.js';
import type { Language } from '../language.js';
import { amount } from '../numbers.js';
import { inOnePassage } from './one-passage.js';
import type { OwnerSection } from './owner-sheet.js';

/** Every medicine with its amount, its times and a box to tick for each dose. */
export const medicines: OwnerSection = ({ identity, patient, home }, language) => {
  const { owner } = language;
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
  return [
    heading,
    {
      kind: 'table',
      caption: owner.text('medicines.caption'),
      captionBy: 'heading',
      columns: [
        { title: owner.text('medicines.medicine'), align: 'start', share: 48 },
        { title: owner.text('medicines.when'), align: 'start', share: 52 },
      ],
      rows: home.medicines.map((_, index) =>
        row(
          home,
          index,
          patient.species.value,
          home.timeZone.value !== identity.clinic.timeZone,
          language,
        ),
      ),
    },
    {
      kind: 'list',
      ordered: false,
      items: [
        ...(home.timeZone.value === identity.clinic.timeZone
          ? []
          : [owner.say('medicines.homeClock', {}, 'home.timeZone')]),
        inOnePassage([owner.say('medicines.rule'), late(home, language)]),
      ],
    },
  ];
};

/** What to do about a dose that is late: by the clinic's own rule, or else whom to ask. */
function late({ lateBy }: HomeFacts, { owner }: Language): Said {
  const limit = lateBy?.value ?? null;
  return limit === null
    ? owner.say('medicines.late')
    : owner.say('medicines.lateBy', { count: limit.value, unit: limit.unit }, 'home.lateBy');
}

/** @param away whether the home has another time zone than the clinic */
function row(
  { medicines: all }: HomeFacts,
  index: number,
  species: Species,
  away: boolean,
  language: Language,
): Cell[] {
  const { owner, purposes, clock } = language;
  const medicine = all[index] as MedicineFacts;
  const fact = (name: string) => `home.medicines.${index}.${name}`;
  const doses = medicine.doses.value;
  const last = doses.at(-1) as string;
  const count = doses.length;
  const give = [
    ...step(medicine, language, fact('step'), fact('doses')),
    howToGive(medicine, index, language),
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
            times: medicine.rhythm.times.length,
            count,
          },
          fact('rhythm'),
          fact('doses'),
        ),
  ];
  give.push(
    ...measured(medicine, language, fact('measure')),
    ...(isEye(medicine.route) ? [owner.say('medicines.eye', {}, fact('route'))] : []),
  );
  // Many take midnight for the end of its day, and would give that dose a day late.
  if (doses.some((at) => hourOf(at) === '00:00')) {
    give.push(owner.say('medicines.midnight', {}, fact('doses')));
  }
  const boxed = ticked(doses);
  const course: Said[] = clockMoves(medicine, boxed.length, language, fact('clockChanges'));
  if (medicine.lastGiven.value !== null) {
    const given = medicine.lastGiven.value;
    course.push(
      owner.say(
        'medicines.clinic',
        {
          day: clock.shortDay(given),
          time: clock.time(given),
          by: away ? 'ours' : 'one',
        },
        fact('lastGiven'),
      ),
    );
  }
  const day = { day: clock.shortDay(last) };
  course.push(
    medicine.leftOver?.value
      ? owner.say('medicines.lastLeft', day, fact('doses'), fact('leftOver'))
      : owner.say('medicines.last', day, fact('doses')),
  );
  const watch = purposes.say(
    `${medicine.purpose}.watch`,
    { species, end: endsKnown(medicine) ? 'known' : 'open' },
    'patient.species',
  );
  if (boxed.length < count) {
    course.push(owner.say('medicines.more', { boxes: boxed.length }, fact('doses')));
  }
  const what = [
    owner.say(
      'medicines.what',
      { drug: medicine.drug, strength: onLabel(medicine.strength, language) },
      fact('drug'),
    ),
    owner.say(
      'medicines.why',
      { purpose: purposes.text(`${medicine.purpose}.owner`) },
      fact('purpose'),
    ),
  ];
  return [
    { kind: 'said', said: [what, [...give, ...course, watch]].map(inOnePassage) },
    {
      kind: 'ticks',
      days: tickDays(boxed, language),
      ...tickGrid(boxed, language),
      ...syringePicture(medicine, index, language),
    },
  ];
}

/** Whether nothing has to be fetched after its last dose: another step follows, or it was the last of a taper. */
const endsKnown = ({ step: of }: MedicineFacts): boolean =>
  of !== undefined && (of.value.number < of.value.of || of.value.tapers);

/** Which step of a course it is; the first one says that the others belong to it, a later one when it begins. */
function step(
  { step: of, doses }: MedicineFacts,
  { owner, clock }: Language,
  ...facts: readonly string[]
): Said[] {
  if (!of) return [];
  const { number, of: count, mayStop } = of.value;
  return number === 1
    ? [owner.say('medicines.firstStep', { count, stop: mayStop ? 'may' : 'not' }, ...facts)]
    : [
        owner.say(
          'medicines.step',
          { number, count, day: clock.shortDay(doses.value[0] as string) },
          ...facts,
        ),
      ];
}

/** A strength in the words of the reader's language: `50 mg/tableta`. @param strength as the record writes it */
export function onLabel(strength: string, { trade }: Language): string {
  const [mass = '', per = ''] = strength.split('/').map((part) => part.trim());
  const form = unitOf(per, HOLDERS);
  return form ? `${mass}/${trade.text(`holders.${form}.owner`)}` : strength;
}

const isEye = (route: string): boolean => EYES.some((one) => one === route);

/** How much, which way and whether with food. */
export function howToGive(medicine: MedicineFacts, index: number, language: Language): Said {
  const { owner, trade } = language;
  const fact = (name: string) => `home.medicines.${index}.${name}`;
  return owner.say(
    'medicines.give',
    {
      amount: amountAtOnce(medicine, language),
      route: trade.text(`routes.${medicine.route}.owner`),
      food: { 'with food': 'with', 'without food': 'without', either: 'either' }[medicine.food],
    },
    fact('give'),
    fact('route'),
    fact('food'),
  );
}

/** `1 ½ tablets` */
export function amountAtOnce({ give }: MedicineFacts, { trade }: Language): string {
  return trade.text(`amounts.${give.unit}.owner`, {
    // Half a tablet is said in the singular.
    count: Math.max(1, give.value),
    shown: amount(give.value, give.unit),
  });
}

/** The syringe with its plunger at the line to fill to; nothing for what is not measured in one. */
function syringePicture(
  medicine: MedicineFacts,
  index: number,
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
      name: `syringe-${index + 1}`,
      figure: {
        kind: 'drawing',
        drawing: syringe({ capacity, graduation, amount: give.value, label, written }),
      },
      caption: owner.say('medicines.fill', {}, `home.medicines.${index}.measure`),
      alternative: owner.text('medicines.filled', { capacity, label }),
    },
  };
}

/** With what the amount is measured, or how the tablet is cut. */
function measured({ measure }: MedicineFacts, { owner }: Language, fact: string): Said[] {
  switch (measure.value.kind) {
    case 'whole':
    case 'smeared':
      return [];
    case 'cut':
      return [owner.say('medicines.cut', { into: measure.value.into }, fact)];
    case 'syringe': {
      const { capacity, graduation } = measure.value.syringe;
      return [owner.say('medicines.syringe', { capacity, graduation: `${graduation}` }, fact)];
    }
  }
}

/** A sentence for each change of the clock that moves the doses; the boxes already stand at the moved hours. */
function clockMoves(
  { clockChanges, doses }: MedicineFacts,
  boxes: number,
  { owner, clock }: Language,
  fact: string,
): Said[] {
  return clockChanges.value.map(({ dose, minutes }) =>
    owner.say(
      'medicines.clock',
      {
        day: clock.shortDay(doses.value[dose] as string),
        time: clock.time(doses.value[dose] as string),
        minutes: Math.abs(minutes),
        boxed: dose < boxes ? 'yes' : 'no',
        way: minutes > 0 ? 'later' : 'earlier',
      },
      fact,
    ),
  );
}

/** Not a clinical number: boxes for a longer course would fill more than a page; the sheet then says how it goes on. */
const MOST_BOXES = 84;
/** Not a clinical number: the same in days. */
const MOST_DAYS = 42;

/** The first doses of a course, as many whole days as have boxes on the sheet. */
function ticked(doses: readonly string[]): readonly string[] {
  const days = [...new Set(doses.map((dose) => dose.slice(0, 10)))];
  const fits = (count: number) =>
    doses.filter((dose) => dose.slice(0, 10) < (days[count] ?? '9999')).length <= MOST_BOXES;
  let count = Math.min(days.length, MOST_DAYS);
  while (count > 1 && !fits(count)) count--;
  return doses.filter((dose) => dose.slice(0, 10) < (days[count] ?? '9999'));
}

/** A box for each dose, under its day. */
function tickDays(doses: readonly string[], { clock }: Language): TickDay[] {
  const days = new Map<string, string[]>();
  for (const dose of doses) {
    const date = dose.slice(0, 10);
    days.set(date, [...(days.get(date) ?? []), clock.time(dose)]);
  }
  return [...days].map(([date, boxes]) => ({ day: clock.shortDay(date), boxes }));
}

/** Not a clinical number: days side by side in half the width of a sheet. */
const MOST_ABREAST = 8;
/** Not a clinical number: hours one below the other that are still found at a glance. */
const MOST_HOURS = 4;

/** The boxes by hour; nothing where a clock change or an odd rhythm makes too many hours, or one hour twice on a day. */
function tickGrid(doses: readonly string[], { clock }: Language): { grid?: TickGrid } {
  const dates = [...new Set(doses.map(dateOf))];
  const hours = [...new Set(doses.map(hourOf))].sort();
  const due = new Set(doses.map((dose) => `${dateOf(dose)}T${hourOf(dose)}`));
  if (hours.length > MOST_HOURS || due.size < doses.length) return {};
  const stretches = Math.ceil(dates.length / MOST_ABREAST);
  // Stretches of even length: five and four rather than eight and one.
  const across = Math.ceil(dates.length / stretches);
  const week = (_: unknown, i: number): GridDay[] =>
    dates.slice(i * across, (i + 1) * across).map((date, k, all) => ({
      day: clock.shortDay(date),
      weekday: clock.weekday(date),
      date:
        k === 0 || date.slice(0, 7) !== all[k - 1]?.slice(0, 7)
          ? clock.monthDay(date)
          : `${Number(date.slice(8, 10))}`,
      due: hours.map((hour) => due.has(`${date}T${hour}`)),
    }));
  return {
    grid: {
      hours: hours.map((hour) => clock.time(`${dates[0]}T${hour}`)),
      weeks: Array.from({ length: stretches }, week),
    },
  };
}

const dateOf = (dose: string): string => dose.slice(0, 10);
const hourOf = (dose: string): string => dose.slice(11, 16);
