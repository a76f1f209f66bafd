import type { Statements } from '../../record/approval-schema.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { onLabel } from './medicines.js';

type Medicine = Statements['medicines'][number];
type Day = Statements['days'][number];

/** What a sheet says otherwise than an earlier one did, in plain words; one sentence that nothing did where that is so. */
export function changesBetween(before: Statements, now: Statements, language: Language): Said[] {
  const { owner } = language;
  const changes = [
    ...medicineChanges(before.medicines, now.medicines, language),
    ...dayChanges(before.days, now.days, language),
    ...Object.keys(now.parts)
      .filter((key) => before.parts[key] !== now.parts[key])
      .map((key) => owner.say('changes.part', { title: owner.text(`${key}.title`) })),
  ];
  return changes.length > 0 ? changes : [owner.say('changes.none')];
}

function medicineChanges(
  before: readonly Medicine[],
  now: readonly Medicine[],
  language: Language,
): Said[] {
  const { owner } = language;
  const earlier = named(before);
  const later = named(now);
  return [
    ...[...later].flatMap(([name, medicine]) => {
      const was = earlier.get(name);
      return was
        ? changesOfOne(was, medicine, language)
        : [owner.say('changes.newMedicine', { drug: medicine.drug })];
    }),
    ...[...earlier]
      .filter(([name]) => !later.has(name))
      .map(([, { drug }]) => owner.say('changes.noMedicine', { drug })),
  ];
}

function changesOfOne(before: Medicine, now: Medicine, language: Language): Said[] {
  const { owner, clock } = language;
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
  if (before.doses.join() !== now.doses.join()) {
    const [first, last] = [now.doses.at(0), now.doses.at(-1)].map((dose = '') => ({
      day: clock.shortDay(dose),
      time: clock.time(dose),
    })) as [{ day: string; time: string }, { day: string; time: string }];
    changes.push(
      owner.say('changes.times', {
        drug,
        count: now.doses.length,
        before: before.doses.length,
        firstDay: first.day,
        firstTime: first.time,
        lastDay: last.day,
        lastTime: last.time,
      }),
    );
  }
  return changes;
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
export function named<T extends { readonly drug: string }>(
  medicines: readonly T[],
): ReadonlyMap<string, T> {
  const found = new Map<string, T>();
  for (const medicine of medicines) {
    const name = medicine.drug.trim().toLowerCase();
    let place = 1;
    while (found.has(`${name}/${place}`)) place++;
    found.set(`${name}/${place}`, medicine);
  }
  return found;
}
