import type { Evidence } from './evidence/evidence.js';
import { isSteep, mainFamily, sinusProof } from './evidence/sinus-proof.js';

/** Half of the intervals lie nearer than this to the middle one. Own choice, not a clinical number. */
const STEADY = 0.06;
/** Fewer beats keep no time. Own choice, not a clinical number. */
const BEATS = 6;

/** What a sinus proof asks of the atria beside a P at an equal distance: only faster ones would fail it. */
const OF_FASTER_ATRIA = ['hidden P', 'rise of P'];
/** All that it asks of the atria. */
const OF_ATRIA = [
  ...OF_FASTER_ATRIA,
  'beats with P',
  'longest row without its P',
  'equal PR',
  'P coherence',
  'beats alike before the QRS',
  'P over noise',
  'waves marked as P without QRS',
];

const FAST_ATRIA = 'atrial tachycardia or flutter of which each second wave is conducted';

/**
 * What a rhythm may be of which all is known but what the atria do: narrow, regular, of one shape.
 * Empty where more than that is in doubt. Source: common practice.
 */
export function whereAtriaAreUnseen(evidence: Evidence): string[] {
  const { unmet, range, rate } = sinusProof(evidence);
  const isOnly = (measures: readonly string[]): boolean =>
    unmet.every(({ measure }) => measures.includes(measure));
  if (isOnly(OF_FASTER_ATRIA)) return ['a sinus rhythm', FAST_ATRIA];
  const { shapes, unevenness, beats } = evidence;
  const isRegular = beats.length >= BEATS && unevenness <= STEADY;
  if (!isOnly(OF_ATRIA) || !isRegular || !isSteep(shapes.families[mainFamily(evidence).index])) {
    return [];
  }
  if (range && rate < range.low) {
    return [
      'a sinus rhythm',
      'atrioventricular block with an escape rhythm',
      'a junctional rhythm, the atria at rest or not',
    ];
  }
  return ['a sinus rhythm', FAST_ATRIA, 'a junctional rhythm'];
}
