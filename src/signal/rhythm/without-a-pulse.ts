import { type Reason, reason } from '../reason.js';
import type { Evidence } from './evidence/evidence.js';
import { pulseReasons } from './pulse-reasons.js';
import { type Finding, NORMAL, type Possible } from './rhythm.js';

type WithoutAPulse =
  | { readonly kind: 'named'; readonly finding: Finding }
  | {
      readonly kind: 'cannot be told';
      readonly possible: readonly Possible[];
      readonly because: readonly Reason[];
    };

/**
 * A rhythm that was found, unless other channels show no pulse: then none is called normal, whatever its shape, and
 * every other says so first. An ECG alone does not tell whether the heart moves any blood: Fletcher et al., RECOVER
 * evidence and knowledge gap analysis on veterinary CPR, part 7, J Vet Emerg Crit Care 22(S1):S102-S131 (2012).
 */
export function withoutAPulse(evidence: Evidence, found: Finding): WithoutAPulse {
  if (evidence.pulse !== 'absent' || isItselfPulseless(found)) {
    return { kind: 'named', finding: found };
  }
  const because = [...pulseReasons(evidence), ...found.because];
  const rhythm = NORMAL.find((name) => name === found.name);
  if (rhythm) {
    return {
      kind: 'cannot be told',
      possible: ['electrical activity without a pulse'],
      because: [reason('rhythm by its shape', { rhythm }), ...because],
    };
  }
  return { kind: 'named', finding: { ...found, because } };
}

/** Their own reasons tell of the pulse. */
const isItselfPulseless = ({ name }: Finding): boolean =>
  name === 'asystole' || name === 'ventricular fibrillation';
