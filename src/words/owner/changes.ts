import type { Statements } from '../../record/approval-schema.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { withoutStop } from './as-needed.js';
import { onLabel } from './one-medicine.js';

type Medicine = Statements['medicines'][number];
type Needed = Statements['asNeeded'][number];
type Given = Medicine | Needed;
type Named = Pick<Medicine, 'drug'>;
type Day = Statements['days'][number];

/** What a sheet says otherwise than an earlier one did, in plain words; one sentence that nothing did where that is so. */
export function changesBetween(before: Statements, now: Statements, language: Language): Said[] {
  const { owner } = language;
  const changes = [
    ...medicineChanges(before, now, language),
    ...dayChanges(before.days, now.days, language),
    ...Object.keys(now.parts)
      .filter((key) => before.parts[key] !== now.parts[key])
      .map((key) => owner.say('changes.part', { title: owner.text(`${key}.title`) })),
  ];
  return changes.length > 0 ? changes : [owner.say('changes.none')];
}

/** Of the medicines with hours, then of those as needed. One that is on the other list still is not gone. */
function medicineChanges(before: Statements, now: Statements, language: Language): Said[] {
  const { owner } = language;
  const isAmong = (all: readonly Named[], { drug }: Named) =>
    all.some((other) => nameOf(other) === nameOf({ drug }));
  const say = (key: string) => (one: Named) => owner.say(`changes.${key}`, { drug: one.drug });
  return [
    ...listChanges(before.medicines, now.medicines, {
      one: (was, is) => [...changesOfOne(was, is, language), ...newTimes(was, is, language)],
      added: (one) => say(isAmong(before.asNeeded, one) ? 'newHours' : 'newMedicine')(one),
      gone: (one) => say(isAmong(now.asNeeded, one) ? 'noHours' : 'noMedicine')(one),
    }),
    ...listChanges(before.asNeeded, now.asNeeded, {
      one: (was, is) => [...changesOfOne(was, is, language), ...newLimits(was, is, language)],
      added: say('newAsNeeded'),
      gone: (one) => say(isAmong(now.medicines, one) ? 'notAsNeeded' : 'noMedicine')(one),
    }),
  ];
}

/** What is said of the medicines of one list. */
function listChanges<T extends Named>(
  before: readonly T[],
  now: readonly T[],
  say: {
    readonly one: (was: T, is: T) => readonly Said[];
    readonly added: (one: T) => Said;
    readonly gone: (one: T) => Said;
  },
): Said[] {
  const earlier = named(before);
  const later = named(now);
  return [
    ...[...later].flatMap(([name, medicine]) => {
      const was = earlier.get(name);
      return was ? say.one(was, medicine) : [say.added(medicine)];
    }),
    ...[...earlier].filter(([name]) => !later.has(name)).map(([, medicine]) => say.gone(medicine)),
  ];
}

function changesOfOne(before: Given, now: Given, language: Language): Said[] {
  const { owner } = language;
  const { drug } = now;
  const changes: Said[] = [];
  if (before.strength !== now.strength) {
    const strength = onLabel(now.strength, language);
    const earlier = onLabel(before.strength, language);
    changes.push(owner.say('changes.strength', { drug, strength, before: earlier }));
  }
  if (before.amount !== now.amount) {
    const { amount } = now;
    changes.push(owner.say('changes.amount', { drug, amount, before: before.amount }));
  } else if (before.how !== now.how) {
    changes.push(owner.say('changes.how', { drug, how: now.how }));
  }
  return changes;
}

function newTimes(before: Medicine, now: Medicine, { owner, clock }: Language): Said[] {
  if (before.doses.join() === now.doses.join()) return [];
  const { drug } = now;
  const [first, last] = [now.doses.at(0), now.doses.at(-1)].map((dose = '') => ({
    day: clock.shortDay(dose),
    time: clock.time(dose),
  })) as [{ day: string; time: string }, { day: string; time: string }];
  return [
    owner.say('changes.times', {
      drug,
      count: now.doses.length,
      before: before.doses.length,
      firstDay: first.day,
      firstTime: first.time,
      lastDay: last.day,
      lastTime: last.time,
    }),
  ];
}

function newLimits(before: Needed, now: Needed, { owner }: Language): Said[] {
  const { drug, sign, limits } = now;
  return [
    ...(before.sign === sign ? [] : [owner.say('changes.sign', { drug, sign: withoutStop(sign) })]),
    ...(before.limits === limits ? [] : [owner.say('changes.limits', { drug, limits })]),
  ];
}

function dayChanges(
  before: readonly Day[],
  now: readonly Day[],
  { owner, clock }: Language,
): Said[] {
  const earlier = new Map(before.map((day) => [day.fact, day]));
  const later = new Set(now.map(({ fact }) => fact));
  return [
    ...now.flatMap(({ fact, what, on }) => {
      const was = earlier.get(fact);
      if (was && was.on === on && was.what === what) return [];
      if (on === null) return [owner.say('changes.noDayYet', { what }, fact)];
      const date = clock.day(on);
      return was?.on && was.on !== on
        ? [owner.say('changes.day', { what, date, before: clock.day(was.on) }, fact)]
        : [owner.say('changes.newDay', { what, date }, fact)];
    }),
    ...before
      .filter(({ fact }) => !later.has(fact))
      .map(({ what, on }) =>
        on === null
          ? owner.say('changes.notNeeded', { what })
          : owner.say('changes.dayGone', { what, date: clock.day(on) }),
      ),
  ];
}

/** By the name of the drug, and where it is given twice, by its place among those of that name. */
export function named<T extends Named>(medicines: readonly T[]): ReadonlyMap<string, T> {
  const found = new Map<string, T>();
  for (const medicine of medicines) {
    const name = nameOf(medicine);
    let place = 1;
    while (found.has(`${name}/${place}`)) place++;
    found.set(`${name}/${place}`, medicine);
  }
  return found;
}

const nameOf = ({ drug }: Named): string => drug.trim().toLowerCase();
