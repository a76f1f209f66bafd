import { type Formatters, IntlMessageFormat } from 'intl-messageformat';
import type { Said } from './handout.js';
import { inlineRuns, literally } from './markdown.js';

export type Values = Readonly<Record<string, string | number>>;

/** The sentences of one language for one reader, looked up by key and filled with values. */
export interface Phrasebook {
  readonly language: string;
  /** A passage with the facts that it states; `**strong**` in the message becomes strong text. */
  readonly say: (key: string, values?: Values, ...facts: readonly string[]) => Said;
  /** The passages of a list, in order; none where the language has no such list. */
  readonly all: (key: string, values?: Values, ...facts: readonly string[]) => readonly Said[];
  /** The same as plain text, for titles and labels. */
  readonly text: (key: string, values?: Values) => string;
}

/**
 * Messages in ICU MessageFormat, so that plural and gender follow the language's own rules.
 * Values stay literal: no character of a patient's name can become markup.
 */
export function phrasebook(
  messages: Readonly<Record<string, string>>,
  language: string,
): Phrasebook {
  const compiled = new Map<string, IntlMessageFormat>();
  const format = (key: string, values: Values): string => {
    let message = compiled.get(key);
    if (!message) {
      const source = messages[key];
      if (source === undefined) throw new Error(`No message "${key}" in language "${language}".`);
      message = new IntlMessageFormat(source, language, undefined, { ignoreTag: true, formatters });
      compiled.set(key, message);
    }
    return String(message.format({ ...values })).trim();
  };
  const say = (key: string, values: Values = {}, ...facts: readonly string[]): Said => ({
    runs: inlineRuns(format(key, mapText(values, literally))),
    facts,
  });
  return {
    language,
    say,
    all: (key, values = {}, ...facts) => {
      const items: Said[] = [];
      while (`${key}.${items.length}` in messages) {
        items.push(say(`${key}.${items.length}`, values, ...facts));
      }
      return items;
    },
    text: (key, values = {}) => format(key, values),
  };
}

/**
 * A message writes its own numbers (`#`) as `numbers.ts` writes all others, with a point in every language: a sheet with
 * 4,5 hours and 0.5 mL on it would leave its reader to guess what either means.
 */
const formatters: Formatters = {
  getNumberFormat: () => POINT,
  getDateTimeFormat: (...given) => new Intl.DateTimeFormat(...given),
  getPluralRules: (...given) => new Intl.PluralRules(...given),
};
const POINT = new Intl.NumberFormat('en', { useGrouping: false });

/** `{ a: { b: 'x' } }` to `{ 'a.b': 'x' }`. */
export function flatten(tree: unknown, prefix = ''): Record<string, string> {
  if (typeof tree !== 'object' || tree === null) return { [prefix]: String(tree) };
  return Object.assign(
    {},
    ...Object.entries(tree).map(([key, part]) => flatten(part, prefix ? `${prefix}.${key}` : key)),
  );
}

function mapText(values: Values, change: (text: string) => string): Values {
  return Object.fromEntries(
    Object.entries(values).map(([key, value]) => [
      key,
      typeof value === 'string' ? change(value) : value,
    ]),
  );
}
