import { type ParameterKind, REASONS, type Reason } from '../signal/reason.js';
import type { Language } from './language.js';
import type { Values } from './phrasebook.js';

/** Digits after the point; `exact` and `label` stand as they are. */
const DIGITS: Readonly<Partial<Record<ParameterKind, number>>> = {
  whole: 0,
  tenths: 1,
  hundredths: 2,
  thousandths: 3,
};

/** A reason as a clause of the reader's language, without a full stop. */
export function sayReason(
  { key, values }: Reason,
  language: Language,
  how: 'say' | 'plain' = 'say',
): string {
  const kinds: Readonly<Record<string, ParameterKind>> = REASONS[key];
  const told: Values = Object.fromEntries(
    Object.entries(values).map(([name, value]) => [
      name,
      told1(kinds[name] as ParameterKind, value, language),
    ]),
  );
  return language.reasons.text(`${how}.${key}`, told);
}

export const sayReasons = (reasons: readonly Reason[], language: Language): string =>
  reasons.map((each) => sayReason(each, language)).join('; ');

function told1(
  kind: ParameterKind,
  value: string | number | null,
  { reasons, rhythms }: Language,
): string | number {
  switch (kind) {
    case 'count':
    case 'exact':
    case 'label':
      return value as string | number;
    case 'share':
    case 'small share': {
      if (value === null) return reasons.text('unknown.share');
      const places = kind === 'share' ? 0 : 1;
      return reasons.text('share', { percent: (100 * (value as number)).toFixed(places) });
    }
    case 'whole':
    case 'tenths':
    case 'hundredths':
    case 'thousandths':
      if (value === null) return reasons.text('unknown.number');
      return (value as number).toFixed(DIGITS[kind]);
    case 'rhythm':
      return rhythms.text(`${value}.learner.name`);
    default:
      return reasons.text(`values.${kind}.${value}`);
  }
}

/** The same tree of data, in which each reason also holds its sentence. */
export function withSentences(tree: unknown, language: Language): unknown {
  if (typeof tree !== 'object' || tree === null) return tree;
  if (Array.isArray(tree)) return tree.map((part) => withSentences(part, language));
  if (isReason(tree)) return { text: sayReason(tree, language), ...tree };
  return Object.fromEntries(
    Object.entries(tree).map(([key, part]) => [key, withSentences(part, language)]),
  );
}

export const isReason = (tree: object): tree is Reason => 'key' in tree && 'values' in tree;
