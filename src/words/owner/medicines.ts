import type { HomeCase, HomeFacts, MedicineFacts } from '../../facts/case-facts.js';
import type { Block, Cell, GridDay, Said, TickDay, TickGrid } from '../handout.js';
import type { Language } from '../language.js';
import { onlyAsNeeded } from './as-needed.js';
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
import type { OwnerSection } from './owner-sheet.js';

/** Every medicine: those with hours and a box to tick for each dose, then those that are given only as needed. */
export const medicines: OwnerSection = (facts, language) => {
  const { owner } = language;
  const { medicines: timed, asNeeded: needed } = facts.home;
  const heading = (key: string) => ({
    kind: 'heading' as const,
    level: 2 as const,
    text: owner.text(key),
  });
  if (timed.length === 0 && needed.length === 0) {
    return [
      heading('medicines.title'),
      { kind: 'paragraph', said: owner.say('medicines.none', {}, 'home.medicines') },
    ];
  }
  return [
    ...(timed.length === 0 ? [] : [heading('medicines.title'), byTheHour(facts, language)]),
    ...(needed.length === 0 ? [] : [heading('asNeeded.title'), onlyAsNeeded(facts, language)]),
    { kind: 'list', ordered: false, items: rules(facts, language) },
  ];
};

/** The medicines with hours, and their boxes to tick. */
const byTheHour = (facts: HomeCase, language: Language): Block => {
  const { owner } = language;
  return {
    kind: 'table',
    caption: owner.text('medicines.caption'),
    captionBy: 'heading',
    columns: [
      { title: owner.text('medicines.medicine'), align: 'start', share: 48 },
      { title: owner.text('medicines.when'), align: 'start', share: 52 },
    ],
    rows: facts.home.medicines.map((_, index) => row(facts, index, language)),
  };
};

/** What holds for all of them. */
function rules(facts: HomeCase, language: Language): Said[] {
  const { home } = facts;
  const { owner } = language;
  const both = home.medicines.length > 0 && home.asNeeded.length > 0;
  return [
    ...(isAway(facts) ? [owner.say('medicines.homeClock', {}, 'home.timeZone')] : []),
    inOnePassage([
      ...(both ? [owner.say('asNeeded.onTop', {}, 'home.asNeeded')] : []),
      owner.say('medicines.rule'),
      ...(home.medicines.length > 0 ? [late(home, language)] : []),
    ]),
  ];
}

/** What to do about a dose that is late: by the clinic's own rule, or else whom to ask. */
function late({ lateBy }: HomeFacts, { owner }: Language): Said {
  const limit = lateBy?.value ?? null;
  return limit === null
    ? owner.say('medicines.late')
    : owner.say('medicines.lateBy', { count: limit.value, unit: limit.unit }, 'home.lateBy');
}

function row(facts: HomeCase, index: number, language: Language): Cell[] {
  const { owner, clock } = language;
  const { medicines: all } = facts.home;
  const medicine = all[index] as MedicineFacts;
  const at = `home.medicines.${index}`;
  const fact = (name: string) => `${at}.${name}`;
  const doses = medicine.doses.value;
  const last = doses.at(-1) as string;
  const count = doses.length;
  const give = [
    ...step(medicine, language, fact('step'), fact('doses')),
    howToGive(medicine, at, language),
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
    ...measured(medicine, at, language),
  ];
  // Many take midnight for the end of its day, and would give that dose a day late.
  if (doses.some((dose) => hourOf(dose) === '00:00')) {
    give.push(owner.say('medicines.midnight', {}, fact('doses')));
  }
  const boxed = ticked(doses);
  const day = { day: clock.shortDay(last) };
  const course: Said[] = [
    ...clockMoves(medicine, boxed.length, language, fact('clockChanges')),
    ...givenHere(medicine, at, isAway(facts), language),
    medicine.leftOver?.value
      ? owner.say('medicines.lastLeft', day, fact('doses'), fact('leftOver'))
      : owner.say('medicines.last', day, fact('doses')),
    ...(boxed.length < count
      ? [owner.say('medicines.more', { boxes: boxed.length }, fact('doses'))]
      : []),
    watchFor(
      medicine,
      { species: facts.patient.species.value, end: endsKnown(medicine) ? 'known' : 'open' },
      language,
    ),
  ];
  return [
    {
      kind: 'said',
      said: [whatAndWhy(medicine, at, language), inOnePassage([...give, ...course])],
    },
    {
      kind: 'ticks',
      days: tickDays(boxed, language),
      ...tickGrid(boxed, language),
      ...syringePicture(medicine, at, index + 1, language),
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
