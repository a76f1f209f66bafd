import { type Reason, reason } from '../reason.js';
import type { Evidence } from './evidence/evidence.js';

/** What other channels say of the pulse: the verdict, then each channel with its time. */
export const pulseReasons = ({ pulse, pulseBecause }: Evidence): Reason[] => [
  reason('pulse in other channels', { pulse }),
  ...pulseBecause,
];
