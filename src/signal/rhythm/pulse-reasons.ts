import type { Evidence } from './evidence/evidence.js';
import { type Reason, reason } from './rhythm.js';

/** For programs; not a clinical number. */
const IN_NUMBERS: Readonly<Record<Evidence['pulse'], number>> = {
  present: 1,
  absent: 0,
  changes: Number.NaN,
  'cannot tell': Number.NaN,
  'not recorded': Number.NaN,
};

/** What other channels say of the pulse: the verdict, then each channel with its time. */
export const pulseReasons = ({ pulse, pulseBecause }: Evidence): Reason[] => [
  reason('pulse', IN_NUMBERS[pulse], '', `pulse in other channels: ${pulse}`),
  ...pulseBecause.map((why) => reason('pulse', IN_NUMBERS[pulse], '', why)),
];
