import type { Species } from '../record/vocabulary.js';
import type { PulseVerdict } from './pulse/pulse.js';
import type { Unreadable } from './quality/span.js';
import type { BreathVerdict } from './rhythm/evidence/evidence.js';
import type { RulingName } from './rhythm/rhythm.js';

/** Words that a parameter may be; `values` of `content/<language>/reasons.yaml` says each of them. */
export interface Words {
  readonly species: Species;
  readonly age: 'puppy' | 'adult' | 'age not known';
  readonly size: 'small' | 'large';
  readonly 'pulse verdict': PulseVerdict;
  readonly 'breath verdict': BreathVerdict;
  readonly unreadable: Unreadable;
  readonly rhythm: RulingName;
}

/** Numbers, by the digits that they are told with; null where one could not be measured. */
interface Numbers {
  /** A whole number that plurals follow. */
  readonly count: number;
  /** 0 to 1, told in whole per cent, and in per cent with a decimal. */
  readonly share: number | null;
  readonly 'small share': number | null;
  readonly whole: number | null;
  readonly tenths: number | null;
  readonly hundredths: number | null;
  readonly thousandths: number | null;
  /** With all its digits: a limit of a table. */
  readonly exact: number;
}

interface Parameters extends Words, Numbers {
  /** A name that a file gives, as it stands there. */
  readonly label: string;
}

/** What a value of a reason is, which decides how it is written. */
export type ParameterKind = keyof Parameters;

/**
 * All that the engine can give as a reason, with what each says beside its words: times in s, voltages in mV, pressures in
 * mmHg, rates in beats/min. `limit` is what a value was held against, for programs; sentences may leave it out.
 */
export const REASONS = {
  // The atria.
  'P before beats': { withP: 'count', asked: 'count', limit: 'share' },
  'longest row without its P': { beats: 'count', limit: 'count' },
  'equal PR': { pr: 'thousandths', share: 'share', limit: 'share' },
  'alike before the QRS': { correlation: 'hundredths', limit: 'hundredths' },
  'beats alike before the QRS': { share: 'share', limit: 'share' },
  'noise in the averaged P': { noise: 'thousandths' },
  'height of P': { height: 'thousandths', limit: 'thousandths' },
  'rise of P': { rise: 'thousandths', limit: 'thousandths' },
  'rest before P': { rest: 'thousandths', limit: 'thousandths' },
  'P without QRS': { count: 'count', limit: 'share' },
  'marked P without QRS': { count: 'count', limit: 'share' },
  'P between P': { share: 'share', limit: 'share' },
  'P between P unseen': { limit: 'share' },
  'P halfway': { share: 'share', limit: 'share' },
  'P in time between P': { share: 'share', limit: 'share' },
  'too uneven for faster atria': { share: 'share', limit: 'share' },
  'long PR': { pr: 'thousandths', limit: 'exact' },
  'short PR': { pr: 'thousandths', limit: 'exact' },
  'P seen': { count: 'count', beats: 'count' },
  'trace before the QRS': { height: 'thousandths', limit: 'thousandths' },
  'between beats': { times: 'tenths', limit: 'tenths' },
  'atrial rate': { rate: 'whole' },
  'atrial rate and beats': { rate: 'whole', beats: 'count' },
  'dropped P': { count: 'count', limit: 'count' },
  'PR of the conducted': { pr: 'thousandths', share: 'share' },
  'PR shorter after the drop': { share: 'share' },
  'tied PR': { share: 'share', limit: 'share' },

  // The QRS.
  'beats from above': { count: 'count', limit: 'count' },
  'one shape': { share: 'share', limit: 'share' },
  'steep QRS': { steepness: 'whole', limit: 'whole' },
  'ventricular share': { share: 'share', limit: 'share' },
  'narrow QRS': { width: 'thousandths', limit: 'thousandths' },
  'wide QRS': { width: 'thousandths', limit: 'exact' },
  'wide QRS led by P': {
    width: 'thousandths',
    pr: 'thousandths',
    share: 'share',
    limit: 'thousandths',
  },
  'no QRS limit': { species: 'species' },
  'late tall T': { share: 'share', limit: 'share' },
  'QRS in pauses': { share: 'share', limit: 'share' },
  'QRS between beats': { share: 'share', limit: 'share' },
  'wide beats': { share: 'share', beats: 'count', limit: 'share' },
  'early P without QRS': { count: 'count', beats: 'count' },
  'early narrow beats': { count: 'count', beats: 'count' },
  'early wide beats': { count: 'count', beats: 'count' },
  'fusion beats': { count: 'count', beats: 'count' },
  'wide beats on time': { count: 'count', beats: 'count' },
  'most in a row': { count: 'count' },
  'in a row': { count: 'count', limit: 'count' },
  'counted twice': { count: 'count', beats: 'count', limit: 'count' },
  'no QRS': { seconds: 'tenths', limit: 'whole' },

  // The pace.
  rate: { rate: 'whole', limit: 'whole' },
  'rate beside the range': { rate: 'whole', low: 'exact', high: 'exact' },
  'mean rate': { rate: 'whole', low: 'exact', high: 'exact', limit: 'exact' },
  'fastest quarter': { rate: 'whole', limit: 'whole' },
  'no rate range': { rate: 'whole', species: 'species' },
  'ventricular rate': { rate: 'whole' },
  'RR varies': { share: 'share', limit: 'share' },
  'half of RR within': { share: 'share', limit: 'share' },
  'half of RR beyond': { share: 'share', limit: 'share' },
  'from beat to beat': { share: 'share', limit: 'share' },
  pauses: { count: 'count' },
  'longest pause': { longest: 'thousandths', usual: 'thousandths', limit: 'thousandths' },
  'P in pauses': { share: 'share' },
  'link with breath': { verdict: 'breath verdict' },

  // The trace.
  'not readable': { why: 'unreadable', seconds: 'tenths' },
  'trace moves': { strength: 'thousandths', limit: 'thousandths' },
  'power of fibrillation': { share: 'share', limit: 'share' },
  'power of swift fibrillation': { share: 'share', limit: 'share' },
  peakedness: { peakedness: 'tenths', limit: 'tenths' },
  'peakedness of the slope': { peakedness: 'tenths', limit: 'tenths' },
  'like itself later': { correlation: 'hundredths', limit: 'hundredths' },

  // A rhythm that goes on across what cannot be read.
  'shape as beside': { count: 'count', from: 'tenths', to: 'tenths' },
  'PR as beside': { count: 'count', pr: 'thousandths' },
  'pace as beside': { share: 'share', limit: 'share' },
  'weighed together': { count: 'count' },

  // The pulse.
  'pulse in other channels': { pulse: 'pulse verdict' },
  'rhythm by its shape': { rhythm: 'rhythm' },
  'pressure pulses': {
    label: 'label',
    count: 'count',
    from: 'tenths',
    to: 'tenths',
    systolic: 'whole',
    diastolic: 'whole',
  },
  'pressure runs off': {
    label: 'label',
    at: 'tenths',
    diastolic: 'whole',
    end: 'whole',
    by: 'tenths',
  },
  'pressure is disturbed': { label: 'label', at: 'tenths' },
  'pressure falls at once': { label: 'label', at: 'tenths', end: 'whole' },
  'pressure is flushed': { label: 'label', at: 'tenths' },
  'pressure is blocked': { label: 'label', at: 'tenths', end: 'whole' },
  'pressure is open to air': { label: 'label', at: 'tenths', end: 'whole' },
  'plethysmogram pulses': {
    label: 'label',
    count: 'count',
    from: 'tenths',
    to: 'tenths',
    rate: 'whole',
  },
  'plethysmogram loses its pulse': { label: 'label', at: 'tenths' },
  'mean pressure fell': { value: 'whole', line: 'exact' },
  'hardly any CO2': { label: 'label', from: 'tenths', to: 'tenths', limit: 'whole' },
  'systolic pressure read': { value: 'whole', second: 'whole', line: 'exact' },
  'mean pressure read': { value: 'whole', second: 'whole', line: 'exact' },
  'oxygen saturation read': { value: 'whole', second: 'whole', line: 'exact' },
  'end-tidal CO2 read': { value: 'whole', second: 'whole', line: 'exact' },

  // The breath.
  'breath not told': {},
  'breaths of the record': { count: 'count' },
  'breaths of remarks': { count: 'count' },
  'breaths of a capnogram': { label: 'label', count: 'count' },
  'breaths of chest impedance': { label: 'label', count: 'count' },
  'breaths of airway pressure': { label: 'label', count: 'count' },
  'breaths of the ECG': { label: 'label', rate: 'tenths' },
  'ventilator rate': { rate: 'exact' },
  'too few breaths': { count: 'count', limit: 'count' },
  'too few intervals': { count: 'count', breaths: 'count', limit: 'count', perBreath: 'count' },
  'swing with the breath': {
    share: 'share',
    intervals: 'count',
    breaths: 'count',
    matched: 'count',
    chance: 'small share',
    trials: 'count',
  },
  'another pace': {},
  'another pace may be the breath': {},
  'beats in step': {},
  'beats not counted': {},
  'breath guessed from the ECG': {},

  // The range that was used.
  'awake rate range': { species: 'species', age: 'age' },
  'rate range under anesthesia': { species: 'species', age: 'age' },
  'awake intervals': { species: 'species' },
  'awake intervals by size': { species: 'species', size: 'size' },
} as const satisfies Readonly<Record<string, Readonly<Record<string, ParameterKind>>>>;

/** The key of a reason in the `reasons.yaml` of each language. */
export type ReasonKey = keyof typeof REASONS;

type ValuesOf<K extends ReasonKey> = {
  readonly [P in keyof (typeof REASONS)[K]]: (typeof REASONS)[K][P] extends ParameterKind
    ? Parameters[(typeof REASONS)[K][P]]
    : never;
};

/** One reason as data; `words/reason.ts` says it in a reader's language. */
export type Reason<K extends ReasonKey = ReasonKey> = {
  readonly [P in K]: { readonly key: P; readonly values: ValuesOf<P> };
}[K];

/** The range that a rhythm was held against. */
export type RangeUsed = Reason<
  'awake rate range' | 'rate range under anesthesia' | 'awake intervals' | 'awake intervals by size'
>;

/** A reason; what could not be measured (NaN) becomes null, as JSON holds no NaN. */
export function reason<const K extends ReasonKey>(key: K, values: ValuesOf<K>): Reason<K> {
  const finite = Object.fromEntries(
    Object.entries(values).map(([name, value]) => [
      name,
      typeof value === 'number' && !Number.isFinite(value) ? null : value,
    ]),
  );
  return { key, values: finite } as Reason<K>;
}
