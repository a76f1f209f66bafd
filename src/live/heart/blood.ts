import type { LiveBeat } from '../contract.js';
import { lastAtOrBefore } from './last-at.js';
import { type ElectricalRecord, phaseAt } from './phase.js';

/**
 * How long after the electrical event the mechanical one is shown, s. That contraction follows depolarisation, and
 * relaxation repolarisation, and in which order the valves move: OpenStax, Anatomy and Physiology 2e, section 19.3. The
 * lengths are teaching values: from memory, unverified. No strip tells them of a patient.
 */
export const DELAYS = {
  /** From P to the contraction of the atria. */
  atriaContract: 0.03,
  /** From the beginning of QRS until the inflow valves shut. */
  inflowShuts: 0.03,
  /** From the beginning of QRS until the outflow valves open. */
  outflowOpens: 0.06,
  /** From the end of T until the outflow valves shut. */
  outflowShuts: 0.02,
  /** From the end of T until the inflow valves open. */
  inflowOpens: 0.07,
} as const;

export type Valve = 'open' | 'shut' | 'not known';

/** What there is to say of the blood at a moment. */
type BloodStep =
  | 'notKnown'
  | 'filling'
  | 'kick'
  | 'bothShut'
  | 'ejection'
  | 'early'
  | 'relaxing'
  | 'endNotKnown'
  | 'noOutput';

export interface Blood {
  readonly step: BloodStep;
  readonly inflow: Valve;
  readonly outflow: Valve;
  readonly flows: readonly Flow[];
}

/** From the veins into the atria, from there into the ventricles, and out to lungs and body. */
export type Flow = 'return' | 'fill' | 'out';

/** What blood and valves do, a little after the current; a teaching picture, nothing of it was measured. */
export function bloodAt(record: ElectricalRecord, second: number): Blood {
  const { step } = phaseAt(record, second);
  if (step === 'ventricularFibrillation' || step === 'asystole') return unknown('noOutput');
  const span = record.quality.spans.find(({ from, to }) => second >= from && second < to);
  const { beats } = record;
  const index = lastAtOrBefore(beats, second - DELAYS.inflowShuts, onsetOf);
  const beat = beats[index];
  if (step === 'unreadable' || !span || !beat?.qrs || beat.time < span.from) {
    return unknown('notKnown');
  }
  if (second < beat.qrs.onset + DELAYS.outflowOpens) return shut('bothShut', []);
  if (beat.t === null) return unknown('endNotKnown');
  if (second < beat.t.end + DELAYS.outflowShuts) return ejection(beat);
  if (second < beat.t.end + DELAYS.inflowOpens) return shut('relaxing', ['return']);
  const next = beats[index + 1];
  if (!next || next.time >= span.to) return unknown('notKnown');
  return atriaContract(record, second)
    ? { step: 'kick', inflow: 'open', outflow: 'shut', flows: ['fill'] }
    : { step: 'filling', inflow: 'open', outflow: 'shut', flows: ['return', 'fill'] };
}

const onsetOf = ({ qrs, time }: LiveBeat): number => qrs?.onset ?? time;

const unknown = (step: BloodStep): Blood => ({
  step,
  inflow: 'not known',
  outflow: 'not known',
  flows: [],
});

const shut = (step: BloodStep, flows: readonly Flow[]): Blood => ({
  step,
  inflow: 'shut',
  outflow: 'shut',
  flows,
});

/** An early beat finds the ventricles less filled; what it ejects cannot be told from its current. */
function ejection({ kind }: LiveBeat): Blood {
  return kind === 'ventricular premature' || kind === 'supraventricular premature'
    ? { step: 'early', inflow: 'shut', outflow: 'not known', flows: [] }
    : { step: 'ejection', inflow: 'shut', outflow: 'open', flows: ['return', 'out'] };
}

function atriaContract(record: ElectricalRecord, second: number): boolean {
  const { atria } = phaseAt(record, second - DELAYS.atriaContract);
  return atria.is === 'being excited' || atria.is === 'excited';
}
