import { createHash } from 'node:crypto';
import type { CaseFacts } from './case-facts.js';

/** SHA-256 in hexadecimal of a value as canonical JSON: keys in order, no spaces (after RFC 8785). */
export const digestOf = (value: unknown): string =>
  createHash('sha256').update(canonicalJson(value)).digest('hex');

/**
 * The part of the facts that documents state, with the people whom the anesthesia chart names. Left out: where a value stands in the files and how it came about, since
 * neither a comment in the record nor a moved line changes what is said; what no document prints, such as warnings to
 * the veterinarian and what is known of the clocks; and consent, which decides where a document goes, not what it says.
 */
export function statedFacts(facts: CaseFacts): unknown {
  const {
    identity,
    consent: _consent,
    warnings: _warnings,
    clocks: _clocks,
    published,
    ...rest
  } = facts;
  const { record, patientName, owner, surgeon, anesthetist, clinic } = identity;
  const { paper: _paper, clock: _clock, ...sender } = clinic;
  return said({
    ...rest,
    identity: {
      ...{ record, patientName, surgeon, anesthetist },
      language: owner.language,
      clinic: sender,
    },
    published: published && { title: published.title, patient: published.patient },
  });
}

/** Fields that say where something stands in a file, or how its author spelled a quantity. */
const UNSAID = new Set(['file', 'line', 'written']);

/** Facts to their values; what is not known keeps its reason, which a document may state. */
function said(tree: unknown): unknown {
  if (typeof tree !== 'object' || tree === null) return tree;
  if (Array.isArray(tree)) return tree.map(said);
  if (ArrayBuffer.isView(tree)) return Array.from(tree as unknown as ArrayLike<number>);
  if ('value' in tree && 'from' in tree && Array.isArray(tree.from)) return said(tree.value);
  return Object.fromEntries(
    Object.entries(tree)
      .filter(([key]) => !UNSAID.has(key))
      .map(([key, part]) => [key, said(part)]),
  );
}

/** Not a clinical number: sines and roots may differ in their last digits between machines. */
const DIGITS = 9;

/** JSON with its keys in order, so that the same value has the same text. */
export function canonicalJson(value: unknown): string {
  if (typeof value === 'number') return canonicalNumber(value);
  if (typeof value !== 'object' || value === null) return JSON.stringify(value ?? null);
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  const fields = Object.entries(value)
    .filter(([, part]) => part !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, part]) => `${JSON.stringify(key)}:${canonicalJson(part)}`);
  return `{${fields.join(',')}}`;
}

function canonicalNumber(value: number): string {
  const whole = String(value);
  if (!Number.isFinite(value)) return JSON.stringify(whole);
  // So few characters hold no more digits than are told: most samples of a recorder need no rounding.
  return whole.length <= DIGITS ? whole : String(Number(value.toPrecision(DIGITS)));
}
