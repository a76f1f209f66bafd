import { readFileSync } from 'node:fs';
import { describe, expect, expectTypeOf, it } from 'vitest';
import { parse } from 'yaml';
import type { WhyNotShown } from '../../src/facts/case-facts.js';
import { type ParameterKind, REASONS, reason, type Words } from '../../src/signal/reason.js';
import { POSSIBLE } from '../../src/signal/rhythm/rhythm.js';
import type { Language } from '../../src/words/language.js';
import { sayReason } from '../../src/words/reason.js';
import { deciding, PLAIN } from '../../src/words/teaching/deciding.js';
import { LANGUAGES } from '../tools/english.js';
import { placeholders } from '../tools/placeholders.js';

interface ReasonWords {
  readonly say: Readonly<Record<string, string>>;
  readonly plain: Readonly<Record<string, string>>;
  readonly values: Readonly<Record<string, Readonly<Record<string, string>>>>;
  readonly possible: Readonly<Record<string, string>>;
}

/** All words of each kind but the rhythms, which have a file of their own; the compiler sees to it that none is missing. */
const WORDS: { readonly [K in Exclude<keyof Words, 'rhythm'>]: Readonly<Record<Words[K], 0>> } = {
  species: { dog: 0, cat: 0, rabbit: 0, ferret: 0 },
  age: { puppy: 0, adult: 0, 'age not known': 0 },
  size: { small: 0, large: 0 },
  'pulse verdict': { present: 0, absent: 0, changes: 0, 'cannot tell': 0, 'not recorded': 0 },
  'breath verdict': { linked: 0, 'not linked': 0, 'cannot tell': 0 },
  unreadable: { 'no samples': 0, 'flat line': 0, clipped: 0, noise: 0 },
};

it('knows no reason that has no words: the compiler refuses another key, or another value', () => {
  // @ts-expect-error there is no such reason
  expect(reason('the moon', {})).toBeDefined();
  // @ts-expect-error a rate is a number
  expect(reason('ventricular rate', { rate: 'fast' })).toBeDefined();
  expectTypeOf(reason('ventricular rate', { rate: 1 }).key).toEqualTypeOf<'ventricular rate'>();
});

describe.each([...LANGUAGES.keys()])('content/%s/reasons.yaml', (tag) => {
  const file = new URL(`../../content/${tag}/reasons.yaml`, import.meta.url);
  const words = parse(readFileSync(file, 'utf8')) as ReasonWords;
  const language = LANGUAGES.get(tag) as Language;

  it('says each reason of the engine, and none that it cannot give', () => {
    expect(Object.keys(words.say)).toEqual(Object.keys(REASONS));
  });

  it.each(Object.entries(REASONS))(
    'says all that "%s" tells, the limit where it wants to',
    (key, parameters) => {
      const said = placeholders(words.say[key] as string, tag);
      const told = Object.keys(parameters);
      expect(told).toEqual(expect.arrayContaining(said));
      expect(told.filter((name) => !said.includes(name) && name !== 'limit')).toEqual([]);
    },
  );

  it('says plainly what decides, with no more than the reason holds', () => {
    expect(Object.keys(words.plain)).toEqual([...PLAIN]);
    for (const key of PLAIN) {
      const said = placeholders(words.plain[key] as string, tag);
      expect(Object.keys(REASONS[key])).toEqual(expect.arrayContaining(said));
    }
  });

  it('has a word for each value', () => {
    for (const [kind, values] of Object.entries(WORDS)) {
      expect(Object.keys(words.values[kind] ?? {}), kind).toEqual(Object.keys(values));
    }
    expect(Object.keys(words.values)).toEqual(Object.keys(WORDS));
    expect(Object.keys(words.possible)).toEqual([...POSSIBLE]);
  });

  it('finishes each clause, with one and with many, and where a number could not be measured', () => {
    const sample = (kind: ParameterKind, number: number): unknown => {
      if (kind === 'rhythm') return 'sinus rhythm';
      if (kind === 'label') return 'II';
      if (kind in WORDS) return Object.keys(WORDS[kind as keyof typeof WORDS])[0];
      return kind === 'count' || kind === 'exact' ? Math.round(number) || 0 : number;
    };
    for (const [key, parameters] of Object.entries(REASONS)) {
      for (const number of [0, 1, 2.5, Number.NaN]) {
        const values = Object.fromEntries(
          Object.entries(parameters).map(([name, kind]) => [name, sample(kind, number)]),
        );
        const clause = sayReason(reason(key as 'another pace', values), language);
        expect(clause, key).not.toMatch(/[{}]|undefined|null|NaN|\.$/);
      }
    }
  });
});

it('tells the numbers of a reason with the digits that they deserve', () => {
  const [english, spanish] = ['en', 'es'].map((tag) => LANGUAGES.get(tag) as Language);
  const pr = reason('equal PR', { pr: 0.10649, share: 0.987, limit: 0.85 });
  expect(sayReason(pr, english as Language)).toBe('PR 0.106 s, equal in 99 %');
  expect(sayReason(pr, spanish as Language)).toBe('PR de 0.106 s, igual en el 99 %');
  const unknown = reason('equal PR', { pr: Number.NaN, share: Number.NaN, limit: 0.85 });
  expect(unknown.values).toEqual({ pr: null, share: null, limit: 0.85 });
  expect(sayReason(unknown, english as Language)).toBe(
    'PR not measured s, equal in an unknown share',
  );
});

/** The compiler sees to it that none is missing. */
const NOT_SHOWN: Readonly<Record<WhyNotShown, 0>> = {
  "The file's own clock places the strip outside the anesthesia, and the record does not say when it began.": 0,
  'Neither the file nor the record says when the strip began.': 0,
  'The beats on the strip could not be counted.': 0,
  'The vitals hold no displayed heart rate of the patient.': 0,
  'No heart rate was displayed within 2.5 minutes of the strip.': 0,
  'The beats could not be counted for most of the minute around the displayed rates.': 0,
};

it.each([...LANGUAGES])('says in %s why no displayed rate can be compared', (tag, { learner }) => {
  for (const why of Object.keys(NOT_SHOWN)) {
    const said = learner.text(`strip.unknown.${why}`);
    if (tag === 'en') expect(said.replace('’', "'")).toBe(why);
    else expect(said).not.toBe(why);
  }
});

it('leads with the three reasons that decide, and with all where there are few', () => {
  const sinus = [
    reason('P before beats', { withP: 49, asked: 49, limit: 0.9 }),
    reason('longest row without its P', { beats: 0, limit: 1 }),
    reason('equal PR', { pr: 0.1, share: 1, limit: 0.9 }),
    reason('steep QRS', { steepness: 119, limit: 20 }),
    reason('narrow QRS', { width: 0.042, limit: 0.07 }),
    reason('link with breath', { verdict: 'linked' }),
  ];
  const keys = (some: Parameters<typeof deciding>[0]) => deciding(some).map(({ key }) => key);
  expect(keys(sinus)).toEqual(['P before beats', 'equal PR', 'link with breath']);
  expect(keys(sinus.slice(0, 5))).toEqual(['P before beats', 'equal PR', 'narrow QRS']);
  expect(keys(sinus.slice(2))).toEqual(['equal PR', 'steep QRS', 'narrow QRS']);
  expect(keys(sinus.slice(0, 2))).toHaveLength(2);
});
