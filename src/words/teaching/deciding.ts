import type { Reason, ReasonKey } from '../../signal/reason.js';
import type { Language } from '../language.js';
import { sayReason } from '../reason.js';

/** A reader takes in about so many reasons at once; the rest is folded. Our own choice: not a clinical number. */
const MOST = 3;

/**
 * What decides where the sinus node, or a P, leads: what is particular to one rhythm first, then what all of them share. The
 * other rhythms name what decides first by themselves.
 */
const OF_A_LEADING_P: readonly ReasonKey[] = [
  'link with breath',
  'long PR',
  'dropped P',
  'mean rate',
  'rate beside the range',
  'P before beats',
  'equal PR',
  'narrow QRS',
];

/** Reasons that also have a plain sentence, under `plain` in `reasons.yaml`. */
export const PLAIN = ['P before beats', 'equal PR', 'narrow QRS', 'link with breath'] as const;

/** The reasons that decide, in the order of the engine; all of them where they are few. */
export function deciding(because: readonly Reason[]): readonly Reason[] {
  if (because.length <= MOST) return because;
  if (!because.some(({ key }) => key === 'P before beats')) return because.slice(0, MOST);
  const rank = ({ key }: Reason) => {
    const at = OF_A_LEADING_P.indexOf(key);
    return at < 0 ? OF_A_LEADING_P.length : at;
  };
  const chosen = because.toSorted((a, b) => rank(a) - rank(b)).slice(0, MOST);
  return because.filter((one) => chosen.includes(one));
}

/** Reasons in plain words where there are any, else as the engine has them. */
export const sayPlainly = (reasons: readonly Reason[], language: Language): string =>
  reasons.map((one) => sayReason(one, language, isPlain(one.key) ? 'plain' : 'say')).join('; ');

const isPlain = (key: ReasonKey): boolean => (PLAIN as readonly ReasonKey[]).includes(key);
