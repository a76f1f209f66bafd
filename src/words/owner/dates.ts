import type { HomeCase } from '../../facts/case-facts.js';
import type { Said } from '../handout.js';
import { readText } from '../handout-text.js';
import type { Language } from '../language.js';
import { atStart } from '../moments.js';
import { inOnePassage } from './one-passage.js';
import { hasStaples } from './wound.js';

/** Something to keep, and the day on which it falls. */
export interface DayToKeep {
  /** `YYYY-MM-DD`; null stands last: the owner has to call for a day. */
  readonly on: string | null;
  readonly what: Said;
}

/** Days that the plan, the medicines and the awaited results tell of. */
const TOLD_ELSEWHERE = /^(home\.(collarUntil|restUntil|awaited|asNeeded)|plan\.softUntil)\b/;

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

/** Each reason to come to the clinic, in the order of its days. */
const visitsOf = (facts: HomeCase, language: Language): DayToKeep[] =>
  daysToKeep(facts, language).filter(({ what }) => !TOLD_ELSEWHERE.test(what.facts[0] as string));

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
    const fact = `home.rechecks.${index}.on`;
    return on.value === null
      ? {
          on: null,
          what: owner.say('dates.unknown', { visit: owner.text(`dates.visit.${what}`) }, fact),
        }
      : { on: on.value, what: owner.say(`dates.visit.${what}`, {}, fact) };
  });
}

function removal({ wound }: HomeCase, { owner, clock }: Language): DayToKeep[] {
  const { removal: visit, skin } = wound;
  if (visit === null || skin.value.kind !== 'remove') return [];
  const { from, to, proposed, set, others, next } = visit.value;
  const window = { from: clock.shortDay(from), to: clock.shortDay(to) };
  if (proposed === null) {
    const key = next === null ? 'dates.removeUnknown' : 'dates.removeNext';
    return [{ on: next, what: owner.say(key, window, 'wound.removal') }];
  }
  const what = hasStaples(wound) ? 'Staples' : 'Stitches';
  const latest = set ? undefined : others.at(-1);
  return [
    {
      on: proposed,
      what:
        latest === undefined
          ? owner.say(`dates.removeOnly${what}`, {}, 'wound.removal')
          : owner.say(`dates.remove${what}`, { to: clock.shortDay(latest) }, 'wound.removal'),
    },
  ];
}

function drainOut({ wound }: HomeCase, { owner }: Language): DayToKeep[] {
  const on = wound.drain?.on;
  if (!on) return [];
  const fact = 'wound.drain.on';
  if (on.value !== null) return [{ on: on.value, what: owner.say('dates.drainOut', {}, fact) }];
  const visit = owner.text('dates.visit.drain');
  return [{ on: null, what: owner.say('dates.unknown', { visit }, fact) }];
}

function lastDays({ home, plan }: HomeCase, { owner }: Language): DayToKeep[] {
  const day = (key: string, on: string | null | undefined, fact: string): DayToKeep[] =>
    on ? [{ on, what: owner.say(`dates.${key}`, {}, fact) }] : [];
  return [
    ...day('softFood', plan.softUntil?.value, 'plan.softUntil'),
    ...day('collar', home.collarUntil.value, 'home.collarUntil'),
    ...day('rest', home.restUntil.value, 'home.restUntil'),
    ...home.asNeeded.map(({ drug, until }, index) => ({
      on: until.value,
      what: owner.say('dates.asNeeded', { drug }, `home.asNeeded.${index}.until`),
    })),
  ];
}

function results({ home }: HomeCase, { owner }: Language): DayToKeep[] {
  return home.awaited.map(({ result, expected }, index) => ({
    on: expected.value,
    what: owner.say('dates.awaited', { result }, `home.awaited.${index}`),
  }));
}
