import { medianOfFinite } from '../filter/order-statistics.js';
import type { BeatWaves, Patient, Wave } from '../marked-beat.js';
import type { BreathLink } from './link.js';

/** What must be shown before a beat that goes with the breath is called a normal variant. */
type Proof =
  | 'timing that goes with the breath'
  | 'a breath recorded apart from the ECG'
  | 'enough marked beats'
  | 'a P wave on every beat'
  | 'a constant PR interval'
  | 'a PR interval within range'
  | 'a QRS on every beat'
  | 'a published QRS limit for the species'
  | 'a narrow QRS'
  | 'a QRS of one shape'
  | 'a T wave on every beat'
  | 'T waves of one direction'
  | 'T waves of ordinary height';

/**
 * Lead II limits. Source: Table 2.4, Small Animal Internal Medicine, 6th ed. The dog's QRS limit is that of
 * its size; breeds over 20 kg count as large here (the table does not draw the line; our choice).
 */
const LARGE_DOG_KG = 20;

/** Longest QRS, s, and range of the PR interval, s; null where no table is at hand. */
function limitsFor({ species, weight }: Patient): {
  readonly qrs: number;
  readonly pr: readonly [number, number];
} | null {
  if (species === 'dog') return { qrs: weight >= LARGE_DOG_KG ? 0.06 : 0.05, pr: [0.06, 0.13] };
  if (species === 'cat') return { qrs: 0.04, pr: [0.05, 0.09] };
  return null;
}

/** Edges are told to about this, s; a limit is passed only beyond it. Our own choice, not a clinical number. */
const EDGE_ERROR = 0.01;
/** PR shortens a little with each faster beat; a block or another focus changes it more, s. From memory, unverified. */
const PR_CHANGE = 0.03;
/** As far as one shape of QRS may vary, s. From memory, unverified. */
const QRS_CHANGE = 0.02;
/** R varies with the breath itself; a beat from a ventricle differs by more than this share. From memory, unverified. */
const R_CHANGE = 0.4;
/** T is usually under a quarter of R in dogs. Source: Table 2.4, Small Animal Internal Medicine, 6th ed. */
const T_TO_R = 0.25;
/** mV. Source: Table 2.4, Small Animal Internal Medicine, 6th ed. */
const CAT_T = 0.3;

/** Fewer beats prove nothing; our own choice, not a clinical number. */
const FEWEST_BEATS = 10;

/** Whether beats that go with the breath are a normal variant, and what is missing to say so. */
export interface NormalVariant {
  readonly isNormalVariant: boolean;
  /** Each proof that there is not; empty for a normal variant. */
  readonly missing: readonly Proof[];
}

/**
 * Whether beats that go with the breath are a normal variant: the timing is proven and P, QRS and T
 * are normal on every beat. The first and the last beat do not count, as the strip may cut them.
 * `missing` names each proof that there is not; one beat that fails is enough.
 */
export function normalVariant(
  link: BreathLink,
  beats: readonly BeatWaves[],
  patient: Patient,
): NormalVariant {
  const whole = beats.slice(1, -1);
  const missing: Proof[] = [];
  const need = (proof: Proof, shown: boolean): void => {
    if (!shown) missing.push(proof);
  };
  need('timing that goes with the breath', link.verdict === 'linked');
  need('a breath recorded apart from the ECG', link.source !== null && link.source !== 'ecg');
  need('enough marked beats', whole.length >= FEWEST_BEATS);
  const limits = limitsFor(patient);

  need(
    'a P wave on every beat',
    whole.every(({ p }) => p !== null),
  );
  const prs = whole.flatMap(({ p, qrs }) => (p && qrs ? [qrs.onset - p.onset] : []));
  need('a constant PR interval', prs.length > 0 && near(prs, PR_CHANGE));
  if (limits) {
    const [least, most] = limits.pr;
    const pr = medianOfFinite(prs);
    need('a PR interval within range', pr >= least - EDGE_ERROR && pr <= most + EDGE_ERROR);
  }

  const complexes = whole.flatMap(({ qrs }) => qrs ?? []);
  need('a QRS on every beat', complexes.length === whole.length && whole.length > 0);
  const widths = complexes.map(({ onset, end }) => end - onset);
  need('a published QRS limit for the species', limits !== null);
  if (limits)
    need(
      'a narrow QRS',
      widths.every((width) => width <= limits.qrs + EDGE_ERROR),
    );
  const heights = complexes.map(({ height }) => height as number);
  const usual = medianOfFinite(heights);
  need('a QRS of one shape', near(widths, QRS_CHANGE) && near(heights, R_CHANGE * Math.abs(usual)));

  const ts = whole.flatMap(({ t }) => t ?? []);
  need('a T wave on every beat', ts.length === whole.length && whole.length > 0);
  const up = ts.filter(({ height }) => height > 0).length;
  need('T waves of one direction', up === 0 || up === ts.length);
  need('T waves of ordinary height', ordinaryHeight(ts, usual, patient));
  return { isNormalVariant: missing.length === 0, missing };
}

/** Every value within `change` of the median. */
function near(values: readonly number[], change: number): boolean {
  const middle = medianOfFinite(values);
  return values.every((value) => Math.abs(value - middle) <= change);
}

/** The usual T against its limit; a species without one is not judged by it. */
function ordinaryHeight(ts: readonly Wave[], r: number, { species }: Patient): boolean {
  const usual = Math.abs(medianOfFinite(ts.map(({ height }) => height as number)));
  if (species === 'dog') return usual <= T_TO_R * Math.abs(r);
  if (species === 'cat') return usual <= CAT_T;
  return true;
}
