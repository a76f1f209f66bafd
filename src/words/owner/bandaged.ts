import type { WoundFacts } from '../../facts/case-facts.js';

/** Whether the wound goes home under a bandage, which stays on from visit to visit. */
export const isBandaged = ({ healing, bare, mouth }: WoundFacts): boolean =>
  healing.value === 'left open' && !bare && !mouth;
