import { reason } from '../reason.js';
import type { Evidence } from './evidence/evidence.js';
import { type Finding, finding, type RulingName } from './rhythm.js';
import { sinusLed } from './sinus.js';

/** The sinus node leads, but its mean rate lies beyond one end of the range. */
export function rateBeyondRange(
  name: RulingName,
  end: 'low' | 'high',
  evidence: Evidence,
): Finding[] {
  const proof = sinusLed(evidence);
  if (!proof?.range) return [];
  const { range, rate } = proof;
  if (end === 'low' ? rate >= range.low : rate <= range.high) return [];
  const because = [
    ...proof.met,
    reason('mean rate', { rate, low: range.low, high: range.high, limit: range[end] }),
  ];
  return [finding(name, evidence, proof.confidence, because, { range: range.used })];
}
