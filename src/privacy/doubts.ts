import { OF_ADDRESSES } from './forms/addresses.js';
import { OF_DAYS } from './forms/days.js';
import { OF_FEATURES } from './forms/features.js';
import type { Form } from './forms/form.js';
import { OF_WORDS } from './forms/in-words.js';
import { OF_NUMBERS } from './forms/numbers.js';
import { initialsIn, namesIn, OF_PEOPLE } from './forms/people.js';
import type { OwnText } from './own-text.js';
import { placesIn } from './places.js';

/** Something in a text that looks like an identifier, whether or not it is one of this case. */
export interface Doubt {
  /** In a few words. */
  readonly what: string;
  readonly text: string;
  /** Where in the text it begins. */
  readonly index: number;
}

/** What a text is compared with. */
export interface Known {
  /** Whole names of the people of the case. */
  readonly people: readonly string[];
  /** What our own texts print: a word of them is no name for its capital letter. */
  readonly own: OwnText;
}

/** Forms that identifiers have, after the list of 45 CFR 164.514(b)(2)(i); the first that fits a place names it. */
const FORMS: readonly Form[] = [
  ...OF_ADDRESSES,
  ...OF_DAYS,
  ...OF_NUMBERS,
  ...OF_WORDS,
  ...OF_PEOPLE,
  ...OF_FEATURES,
];

/** Everything of a text that has the form of an identifier, each place once. */
export function doubtsIn(text: string, { people, own }: Known): Doubt[] {
  const taken: (readonly [number, number])[] = [];
  const found = [
    ...FORMS.flatMap(([what, form]) =>
      placesIn(text, form).map(({ 0: said, index }): Doubt => ({ what, text: said, index })),
    ),
    ...initialsIn(text, people),
    ...namesIn(text, own),
  ];
  return found.filter(({ text: said, index }) => {
    const end = index + said.length;
    if (taken.some(([from, to]) => index < to && end > from)) return false;
    taken.push([index, end]);
    return true;
  });
}
