import { reason } from '../reason.js';
import type { Channel } from '../waveform.js';
import { isPlethysmogram, plethysmogramPulses } from './plethysmogram-pulse.js';
import { isArterialPressure, pressurePulses } from './pressure-pulse.js';
import type { Pulse } from './pulse.js';
import {
  fallenPressure,
  HARDLY_ANY_CO2,
  type PulseReading,
  readingPulses,
} from './reading-pulse.js';

/** All that may tell of the pulse. Leave out what there is not. */
export interface PulseEvidence {
  /** All channels of the waveform file; those with a pulse are found by label and unit. */
  readonly channels?: readonly Channel[];
  /** The patient's own readings; those of a sensor that was off the patient are left out. */
  readonly readings?: readonly PulseReading[];
}

/**
 * What the channels and readings beside the ECG say of the pulse. Absence takes an arterial pressure that runs off; or
 * a plethysmogram that lost its pulse and a reading of the pressure that fell. A plethysmogram or CO2 that went flat
 * alone says nothing: whoever moves the patient takes several sensors off at once.
 */
export function findPulses({ channels = [], readings = [] }: PulseEvidence): Pulse[] {
  return [
    ...channels.filter(isArterialPressure).flatMap(pressurePulses),
    ...channels
      .filter(isPlethysmogram)
      .flatMap(plethysmogramPulses)
      .map((pulse) => confirmed(pulse, readings)),
    ...channels.flatMap(flatCapnogram),
    ...readingPulses(readings),
  ];
}

function confirmed(pulse: Pulse, readings: readonly PulseReading[]): Pulse {
  const fallen =
    pulse.pulse === 'cannot tell' ? fallenPressure(readings, pulse.from, pulse.to) : null;
  return fallen
    ? {
        ...pulse,
        pulse: 'absent',
        because: [
          ...pulse.because,
          reason('mean pressure fell', { value: fallen.value, line: fallen.line }),
        ],
      }
    : pulse;
}

/** mmHg in each unit; of a share, at 760 mmHg. NIST Special Publication 811 (2008), appendix B.8. */
const CO2_UNITS: Readonly<Record<string, number>> = { mmHg: 1, kPa: 7.50062, '%': 7.6 };
/** No breath of a patient with a pulse leaves a longer rest, s. Own choice, not a clinical number. */
const LONGEST_REST = 10;

/** Stretches in which a capnogram stays near zero. */
function flatCapnogram({ label, unit, samples, samplingRate }: Channel): Pulse[] {
  const factor = Object.hasOwn(CO2_UNITS, unit) ? CO2_UNITS[unit] : undefined;
  if (factor === undefined || !/co2|capno/i.test(label)) return [];
  const out: Pulse[] = [];
  let from = 0;
  for (let i = 0; i <= samples.length; i += 1) {
    if (i < samples.length && samples[i]! * factor < HARDLY_ANY_CO2) continue;
    if ((i - from) / samplingRate >= LONGEST_REST) {
      out.push({
        from: from / samplingRate,
        to: i / samplingRate,
        pulse: 'cannot tell',
        holds: 'throughout',
        because: [
          reason('hardly any CO2', {
            label,
            from: from / samplingRate,
            to: i / samplingRate,
            limit: HARDLY_ANY_CO2,
          }),
        ],
      });
    }
    from = i + 1;
  }
  return out;
}
