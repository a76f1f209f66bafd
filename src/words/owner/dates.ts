import type { HomeCase } from '../../facts/case-facts.js';
import type { Said } from '../handout.js';
import { readText } from '../handout-text.js';
import type { Language } from '../language.js';
import { atStart } from '../moments.js';
import { inOnePassage } from './one-passage.js';
import { hasStaples } from './wound.js';

/** Something to keep, and the day on which it falls. */
export interface DayToKeep {
  /** What it is, and its ordinal: names the same thing on every later sheet. */
  readonly key: string;
  /**
   * What keeps it: a visit to the clinic, the visit at which stitches come out, nothing outside the home, or nothing at all,
   * as on the last day of what is given only as needed.
   */
  readonly kind: 'visit' | 'removal' | 'at home' | 'last day';
  /** `YYYY-MM-DD`; null stands last: the owner has to call for a day. */
  readonly on: string | null;
  readonly what: Said;
}

/** Every visit to the clinic, in the order of its days, each day once; days of one kind of visit share an entry. */
export function visits(facts: HomeCase, language: Language): Said[] {
  const { clock } = language;
  const entries: { days: string[]; what: Said }[] = [];
  for (const [on, said] of byDay(visitsOf(facts, language))) {
    const what = inOnePassage(said);
    const last = entries.at(-1);
    if (on !== null && last && last.days.length > 0 && readText(last.what) === readText(what)) {
      last.days.push(on);
      last.what = { ...last.what, facts: [...last.what.facts, ...what.facts] };
    } else entries.push({ days: on === null ? [] : [on], what });
  }
  return entries.map(({ days, what }): Said => {
    const [only] = days;
    if (only === undefined) return what;
    const text = atStart(days.map(clock.shortDay).join('; '), language.tag);
    return { ...what, runs: [{ text, strong: true }, { text: ': ' }, ...what.runs] };
  });
}

/** Each reason to come to the clinic, in the order of its days; the plan and the awaited results tell of the others. */
const visitsOf = (facts: HomeCase, language: Language): DayToKeep[] =>
  daysToKeep(facts, language).filter(({ kind }) => kind === 'visit' || kind === 'removal');

/** Each day to keep with what falls on it, in order. */
export const daysToKeep = (facts: HomeCase, language: Language): DayToKeep[] =>
  [
    ...rechecks(facts, language),
    ...removal(facts, language),
    ...drainOut(facts, language),
    ...lastDays(facts, language),
    ...results(facts, language),
  ].sort((a, b) => (a.on ?? '9999').localeCompare(b.on ?? '9999'));

/** One entry a day, however much falls on it. */
function byDay(entries: readonly DayToKeep[]): [on: string | null, said: Said[]][] {
  const days = new Map<string | null, Said[]>();
  for (const { on, what } of entries) days.set(on, [...(days.get(on) ?? []), what]);
  return [...days];
}

function rechecks({ home }: HomeCase, { owner }: Language): DayToKeep[] {
  return home.rechecks.map(({ what, on }, index) => {
    const key = `home.rechecks.${index}.on`;
    const visit = `dates.visit.${what}`;
    return {
      ...{ key, kind: 'visit', on: on.value },
      what:
        on.value === null
          ? owner.say('dates.unknown', { visit: owner.text(visit) }, key)
          : owner.say(visit, {}, key),
    };
  });
}

function removal({ wound }: HomeCase, { owner, clock }: Language): DayToKeep[] {
  const { removal: visit, skin } = wound;
  if (visit === null || skin.value.kind !== 'remove') return [];
  const { from, to, proposed, set, others, next } = visit.value;
  const kept = { key: 'wound.removal', kind: 'removal' } as const;
  const window = { from: clock.shortDay(from), to: clock.shortDay(to) };
  if (proposed === null) {
    const said = next === null ? 'dates.removeUnknown' : 'dates.removeNext';
    return [{ ...kept, on: next, what: owner.say(said, window, kept.key) }];
  }
  const what = hasStaples(wound) ? 'Staples' : 'Stitches';
  const latest = set ? undefined : others.at(-1);
  return [
    {
      ...kept,
      on: proposed,
      what:
        latest === undefined
          ? owner.say(`dates.removeOnly${what}`, {}, kept.key)
          : owner.say(`dates.remove${what}`, { to: clock.shortDay(latest) }, kept.key),
    },
  ];
}

function drainOut({ wound }: HomeCase, { owner }: Language): DayToKeep[] {
  const on = wound.drain?.on;
  if (!on) return [];
  const key = 'wound.drain.on';
  const visit = owner.text('dates.visit.drain');
  return [
    {
      ...{ key, kind: 'visit', on: on.value },
      what:
        on.value === null
          ? owner.say('dates.unknown', { visit }, key)
          : owner.say('dates.drainOut', {}, key),
    },
  ];
}

function lastDays({ home, plan }: HomeCase, { owner }: Language): DayToKeep[] {
  const day = (what: string, on: string | null | undefined, key: string): DayToKeep[] =>
    on ? [{ key, kind: 'at home', on, what: owner.say(`dates.${what}`, {}, key) }] : [];
  return [
    ...day('softFood', plan.softUntil?.value, 'plan.softUntil'),
    ...day('collar', home.collarUntil.value, 'home.collarUntil'),
    ...day('rest', home.restUntil.value, 'home.restUntil'),
    ...home.asNeeded.map(({ drug, until }, index): DayToKeep => {
      const key = `home.asNeeded.${index}.until`;
      return {
        ...{ key, kind: 'last day', on: until.value },
        what: owner.say('dates.asNeeded', { drug }, key),
      };
    }),
  ];
}

function results({ home }: HomeCase, { owner }: Language): DayToKeep[] {
  return home.awaited.map(({ result, expected }, index) => {
    const key = `home.awaited.${index}`;
    return {
      ...{ key, kind: 'at home', on: expected.value },
      what: owner.say('dates.awaited', { result }, key),
    };
  });
}
