import { millivolt, type Seconds, seconds } from '../../units/brands.js';
import type { BeatWaves, Wave } from '../marked-beat.js';
import type { Channel } from '../waveform.js';
import { markAtria } from './atria.js';
import { gridRate, onGrid } from './grid.js';
import { takeOutHum } from './mains.js';
import type { Mark } from './marks.js';
import { markVentricles } from './ventricles.js';

/** A beat as it was detected. */
export interface BeatTime {
  /** R peak, s after the first sample. */
  readonly time: Seconds;
  /** Place in the list of leads of the one whose heights are told. */
  readonly lead: number;
}

/** The waves of a strip. */
export interface Waves {
  /** One a beat, in the order given. */
  readonly beats: BeatWaves[];
  /** P waves that no QRS of their own follows (blocked or dissociated), ascending. */
  readonly loneP: Wave[];
}

/**
 * P, QRS and T of each beat. `leads` in mV, all beginning at the same instant, NaN where a lead
 * cannot be read; `beats` ascending. Each lead is marked on its own; each kind of wave is then taken
 * from the lead on which that kind stands clearest of noise over the whole strip, or where that lead
 * cannot be read, from the next. A wave that is absent, or that noise hides, is null. No P is told
 * before a beat unless it recurs before beats of that shape or marches with a cycle of its own.
 */
export function findWaves(leads: readonly Channel[], beats: readonly BeatTime[]): Waves {
  const positions = beats.map(positionOf);
  const marked = leads.map((lead) => markLead(lead, positions));
  const leadsBy: LeadsBy = {
    p: clearestFirst(marked, ({ p, lone }) => [...p, ...lone]),
    qrs: [...marked].sort((a, b) => b.qrsClarity - a.qrsClarity),
    t: clearestFirst(marked, ({ t }) => t),
  };
  const lone = leadsBy.p[0];
  const waves: BeatWaves[] = [];
  for (let k = 0; k < beats.length; k++) waves.push(wavesOfBeat(k, beats[k]!, marked, leadsBy));
  return { beats: waves, loneP: lone ? lone.lone.map((mark) => waveOf(mark, lone.samples)) : [] };
}

/** The leads for each kind of wave, the clearest first. */
type LeadsBy = Readonly<Record<'p' | 'qrs' | 't', readonly LeadMarks[]>>;

function wavesOfBeat(
  k: number,
  { time, lead }: BeatTime,
  marked: readonly LeadMarks[],
  leadsBy: LeadsBy,
): BeatWaves {
  const heightOn = marked[lead]?.samples ?? NOTHING;
  const p = firstReading(leadsBy.p, k)?.p[k];
  const qrs = firstReading(leadsBy.qrs, k)?.qrs[k];
  const t = firstReading(leadsBy.t, k)?.t[k];
  return {
    time,
    p: p ? waveOf(p, heightOn) : null,
    qrs: qrs ? { ...waveOf(qrs, heightOn), peak: time } : null,
    t: t ? waveOf(t, heightOn) : null,
  };
}

const NOTHING = new Float64Array();

/** The first lead on which the QRS of a beat can be read. */
function firstReading(leads: readonly LeadMarks[], k: number): LeadMarks | undefined {
  for (const lead of leads) if (lead.qrs[k] !== null) return lead;
  return undefined;
}

const positionOf = ({ time }: BeatTime): number => Math.round(time * gridRate);

interface LeadMarks {
  /** Height of the QRS over noise, summed over the beats. */
  readonly qrsClarity: number;
  /** Without hum and wander, mV on the grid. */
  readonly samples: Float64Array;
  readonly p: readonly (Mark | null)[];
  readonly qrs: readonly (Mark | null)[];
  readonly t: readonly (Mark | null)[];
  readonly lone: readonly Mark[];
}

function markLead(lead: Channel, beats: readonly number[]): LeadMarks {
  const samples = onGrid(lead);
  takeOutHum(samples, beats);
  const ventricles = markVentricles(samples, beats);
  const { p, lone } = markAtria(samples, beats, ventricles);
  const qrsClarity = ventricles.groups.reduce(
    (sum, { members, qrsHeight, noise }) => sum + (members.length * qrsHeight) / noise,
    0,
  );
  return { samples, qrsClarity, p, lone, qrs: ventricles.qrs, t: ventricles.t };
}

function clearestFirst(
  leads: readonly LeadMarks[],
  marks: (lead: LeadMarks) => readonly (Mark | null)[],
): readonly LeadMarks[] {
  const clarity = new Map(leads.map((lead) => [lead, confidenceOf(marks(lead))]));
  return [...leads].sort((a, b) => clarity.get(b)! - clarity.get(a)!);
}

function confidenceOf(marks: readonly (Mark | null)[]): number {
  let sum = 0;
  for (const mark of marks) sum += mark?.confidence ?? 0;
  return sum;
}

function waveOf({ onset, peak, end, confidence }: Mark, samples: Float64Array): Wave {
  const at = Math.round(peak);
  let sum = 0;
  for (let i = at - 1; i <= at + 1; i++) sum += samples[i] ?? Number.NaN;
  return {
    onset: seconds(onset / gridRate),
    peak: seconds(peak / gridRate),
    end: seconds(end / gridRate),
    height: millivolt(sum / 3),
    confidence,
  };
}
