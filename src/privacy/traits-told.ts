import type { Doubt } from './doubts.js';
import { ENGLISH, SPANISH } from './number-words.js';
import { placesIn } from './places.js';

/** What public documents round, put in bands or may withhold, as it is. */
export interface Patient {
  /** kg, exact and as public documents round it. */
  readonly weight: { readonly exact: number; readonly rounded: number };
  readonly age: { readonly count: number; readonly unit: 'years' | 'months' | 'weeks' };
  readonly breed: string;
}

/** What small groups may withhold and words can tell. */
export const TRAIT_WORDS = ['breed', 'age', 'sex'] as const;
/** How each trait of a patient is said in a language, for the search of free text. */
export type TraitWords<T> = Readonly<Record<(typeof TRAIT_WORDS)[number], T>>;

/** Not a clinical number: exact by the definition of the international pound. */
const KG_PER_LB = 0.45359237;

/** The exact weight and age in a text, where public ones are rounded. */
export function exactlyIn(text: string, { weight, age }: Patient): Doubt[] {
  const weights = weight.exact === weight.rounded ? [] : weightForms(weight.exact, weight.rounded);
  return [
    ...places(text, weights, 'the exact weight of the patient'),
    ...places(text, ageForms(age), 'the exact age of the patient'),
  ];
}

function weightForms(kilograms: number, rounded: number): string[] {
  const kg = spelled(kilograms).filter((written) => Number(written) !== rounded);
  const units = [
    [kg, 'kg|kilos?|kilograms?|kilogramos?'],
    [spelled(kilograms / KG_PER_LB), 'lbs?|pounds?|libras?'],
    [[String(Math.round(kilograms * 1000))], 'g|grams?|gramos?'],
  ] as const;
  return units.flatMap(([numbers, unit]) =>
    numbers.map((written) => `(?<![\\d.,])${written.replace('.', '[.,]')}[\\s-]?(?:${unit})`),
  );
}

/** A number as it is, and with one or two decimals. */
const spelled = (value: number): string[] => [
  ...new Set([String(value), String(Number(value.toFixed(2))), String(Number(value.toFixed(1)))]),
];

const UNITS = {
  years: ['years?|yr|y\\.?', 'años?'],
  months: ['months?|mo', 'mes(?:es)?'],
  weeks: ['weeks?|wk', 'semanas?'],
} as const;

function ageForms({ count, unit }: Patient['age']): string[] {
  const [english, spanish] = UNITS[unit];
  const one = [count, ENGLISH[count - 1] ?? count].join('|');
  const uno = [count, SPANISH[count - 1] ?? count].join('|');
  return [
    `(?<!\\d)(?:${one})[\\s-]+(?:${english})[\\s-]+(?:old|of age)`,
    `(?<!\\p{L})(?:aged?|at)\\s+(?:${one})\\s+(?:${english})`,
    `(?<!\\p{L})(?:de|tiene|tenía|con)\\s+(?:${uno})\\s+(?:${spanish})(?:\\s+de\\s+edad)?`,
  ];
}

/** Words that say nothing of a breed, though breeds are named with them. */
const OF_NO_BREED = new Set(
  'mixed breed domestic common short long hair haired shorthair longhair cross crossed crossbreed mestizo mestiza común doméstico pelo corto largo unknown desconocida with giant large small standard miniature'.split(
    ' ',
  ),
);
/** What breeds are called in short, beside their initials. Common usage, from memory, unverified. */
const SHORT_NAMES: Readonly<Record<string, string>> = {
  labrador: 'labs?',
  'german shepherd': 'gsds?|alsatians?',
  'pastor alemán': 'gsds?',
  'french bulldog': 'frenchies?',
  'west highland': 'westies?',
  yorkshire: 'yorkies?',
  rottweiler: 'rotties?',
  'jack russell': 'jrts?',
  staffordshire: 'staff(?:ies?|ys?)',
  'cavalier king': 'cavies?|ckcs',
  'shetland sheepdog': 'shelties?',
  dachshund: 'doxies?|sausage dogs?|salchichas?',
  'australian shepherd': 'aussies?',
  dobermann: 'dob(?:ies?|eys?)',
  doberman: 'dob(?:ies?|eys?)',
  'golden retriever': 'goldies?',
  pomeranian: 'poms?',
};

/** A breed's initials, and these with the D of "dog", where they are three letters or more: fewer stand for much else. */
function shortFor(breed: string): string[] {
  const initials = breed
    .split(/[^\p{L}\p{M}]+/u)
    .filter((word) => word !== '')
    .map((word) => word[0])
    .join('');
  return [
    ...[initials, `${initials}d`].filter((letters) => letters.length >= 3),
    ...Object.entries(SHORT_NAMES).flatMap(([name, short]) =>
      breed.includes(name) ? [short] : [],
    ),
  ];
}

const YOUNG_OR_OLD =
  'pupp(?:y|ies)|kittens?|young|juvenile|adult|middle-aged|old|older|elderly|senior|geriatric|aged|cachorr[oa]s?|gatit[oa]s?|joven|jóvenes|adult[oa]|viej[oa]|anciano|anciana|mayor|geriátric[oa]';
const HE_OR_SHE =
  'he|him|his|she|her|hers|male|female|bitch|queen|tomcat|buck|doe|spayed|castrated|neutered|entire|intact|macho|hembra|castrad[oa]|esterilizad[oa]|ella|él';

/** Words of a text by which breed, age or sex of the patient can be told. */
export function traitsIn(text: string, { breed }: Patient): TraitWords<Doubt[]> {
  const ofBreed = breed
    .toLowerCase()
    .split(/[^\p{L}\p{M}]+/u)
    .filter((word) => word.length >= 4 && !OF_NO_BREED.has(word));
  return {
    breed: places(
      text,
      [
        ...ofBreed.map((word) => `${word}(?:e?s)?`),
        ...(ofBreed.length > 0 ? shortFor(breed.toLowerCase()) : []),
      ].map((word) => `(?<!\\p{L})(?:${word})`),
      'the breed',
    ),
    age: places(text, [`(?<!\\p{L})(?:${YOUNG_OR_OLD})`], 'the age'),
    sex: places(text, [`(?<!\\p{L})(?:${HE_OR_SHE})`], 'the sex'),
  };
}

function places(text: string, forms: readonly string[], what: string): Doubt[] {
  if (forms.length === 0) return [];
  return placesIn(text, anyOf(forms.join('|'))).map(({ 0: found, index }) => ({
    what,
    text: found,
    index,
  }));
}

/** The expressions of the last cases: each sentence of a case is searched by the same few. */
const expressions = new Map<string, RegExp>();
/** Not a clinical number. */
const MOST_KEPT = 64;

function anyOf(forms: string): RegExp {
  const before = expressions.get(forms);
  if (before) return before;
  if (expressions.size >= MOST_KEPT) expressions.clear();
  const any = new RegExp(`(?:${forms})(?![\\p{L}\\p{N}])`, 'giu');
  expressions.set(forms, any);
  return any;
}
