import { reason } from '../reason.js';
import { channelBreaths } from './breath-channel.js';
import { type BreathEvidence, type Breaths, FEWEST_STARTS, usualPeriod } from './breaths.js';
import { ecgBreaths } from './ecg-breaths.js';
import { statedBreaths } from './stated-breaths.js';

/**
 * When the patient breathed, from the best evidence there is: stated times, then a breath channel,
 * then the ventilator's rate (pace known, phase not), then the ECG itself. Where nothing tells,
 * `times` and `period` are null.
 */
export function findBreaths(evidence: BreathEvidence): Breaths {
  return (
    fromRecord(evidence.stated ?? []) ??
    fromRemarks(evidence) ??
    channelBreaths(evidence.channels ?? []) ??
    fromVentilator(evidence.ventilatorRate ?? null) ??
    (evidence.ecg ? ecgBreaths(evidence.ecg.lead, evidence.ecg.beats) : null) ?? {
      times: null,
      period: null,
      source: null,
      fromInspiration: false,
      confidence: 0,
      because: reason('breath not told', {}),
    }
  );
}

function fromRecord(stated: readonly number[]): Breaths | null {
  return stated.length < FEWEST_STARTS
    ? null
    : asStated(
        stated.toSorted((a, b) => a - b),
        'breaths of the record',
      );
}

function fromRemarks({ annotations = [] }: BreathEvidence): Breaths | null {
  const starts = statedBreaths(annotations);
  return starts.length < FEWEST_STARTS ? null : asStated(starts, 'breaths of remarks');
}

function asStated(
  times: readonly number[],
  by: 'breaths of the record' | 'breaths of remarks',
): Breaths {
  return {
    times,
    period: usualPeriod(times),
    source: 'stated',
    fromInspiration: true,
    confidence: 0.95,
    because: reason(by, { count: times.length }),
  };
}

function fromVentilator(rate: number | null): Breaths | null {
  return rate === null || !(rate > 0)
    ? null
    : {
        times: null,
        period: 60 / rate,
        source: 'ventilator rate',
        fromInspiration: false,
        confidence: 0.5,
        because: reason('ventilator rate', { rate }),
      };
}
