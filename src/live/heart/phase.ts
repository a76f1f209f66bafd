import type { StripAnalysis } from '../../signal/strip-analysis.js';
import type { ToldWave } from '../../signal/told-beats.js';
import type { LiveBeat } from '../contract.js';
import { lastAtOrBefore } from './last-at.js';

/** What a strip tells of the current; any analysis of a strip is one. Times in s after the first sample. */
export type ElectricalRecord = Pick<StripAnalysis, 'rhythms'> & {
  readonly beats: readonly LiveBeat[];
  readonly loneP: readonly ToldWave[];
  readonly quality: Pick<StripAnalysis['quality'], 'spans'>;
};

/** How a muscle stands. `share` is how much of the wave has passed, 0 to 1. */
export type Muscle =
  | { readonly is: 'at rest' }
  | { readonly is: 'being excited'; readonly share: number; readonly from: Origin }
  | { readonly is: 'excited' }
  | { readonly is: 'recovering'; readonly share: number }
  /** It recovers, and no wave of the strip shows when. */
  | { readonly is: 'recovering unseen' }
  /** Many small fronts at once, none of them in order. */
  | { readonly is: 'in disorder' }
  /** Nothing was found that excites it. */
  | { readonly is: 'still' }
  /** The strip does not tell. */
  | { readonly is: 'not known' };

/** Where a front sets out. */
type Origin = 'sinus node' | 'branches' | 'ventricle' | 'branches and ventricle' | 'not known';

type Node = 'at rest' | 'holding' | 'passing' | 'blocked' | 'starting' | 'not known';
type Branches = 'at rest' | 'carrying' | 'not used' | 'not known';

/** What there is to say of a moment. */
type Step =
  | 'unreadable'
  | 'edge'
  | 'rest'
  | 'restUnnamed'
  | 'atria'
  | 'atriaElsewhere'
  | 'atriaUnknown'
  | 'holding'
  | 'passing'
  | 'notConducted'
  | 'blocked'
  | 'notReady'
  | 'ventricles'
  | 'ventricularEarly'
  | 'ventricularOwn'
  | 'junction'
  | 'fusion'
  | 'aberrant'
  | 'unclassified'
  | 'qrsUnknown'
  | 'plateau'
  | 'recovery'
  | 'recoveryUnknown'
  | 'atrialFibrillation'
  | 'atrialStandstill'
  | 'ventricularFibrillation'
  | 'asystole';

export interface Phase {
  readonly step: Step;
  readonly atria: Muscle;
  readonly node: Node;
  readonly branches: Branches;
  readonly ventricles: Muscle;
  /** Place of the beat that the step belongs to; null where it belongs to none. */
  readonly beat: number | null;
  /** The wave that is under way; null between waves. */
  readonly wave: ToldWave | null;
}

/**
 * Share of the time from the end of P to QRS in which the picture keeps the current in the node; then bundle and
 * branches carry it. The strip shows neither, so this is a choice of the drawing, and told so.
 */
export const HELD_IN_NODE = 0.65;

/** s that the picture shows the current stopped in the node after a P without QRS. Of the drawing: not a clinical number. */
export const STOP_SHOWN = 0.3;

const REST: Muscle = { is: 'at rest' };
const UNKNOWN: Muscle = { is: 'not known' };

/** A P with the beat that it belongs to; null where no QRS follows it. */
interface Atrial {
  readonly p: ToldWave;
  readonly beat: LiveBeat | null;
}

/** What each part of the heart is doing at a second of the strip, as far as the marked waves tell. */
export function phaseAt(record: ElectricalRecord, second: number): Phase {
  const here = placeOf(record, second);
  if (here === null) return nothing('unreadable');
  const { rhythm, last, next, atrial } = here;
  if (rhythm === 'ventricular fibrillation') {
    return { ...nothing('ventricularFibrillation'), ventricles: { is: 'in disorder' } };
  }
  const ventricles = ventriclesAt(here, second);
  const atria = atriaAt(here, second);
  const node = nodeAt(here, second);
  const branches = branchesAt(here, second);
  const step = stepOf({ atria, node, ventricles }, here, second);
  const ofAtria = ['atria', 'atriaElsewhere', 'blocked', 'notReady'].includes(step);
  const beat = ofAtria
    ? atrial?.beat
    : ['holding', 'passing', 'notConducted', 'atriaUnknown'].includes(step)
      ? next
      : last;
  const told = ['edge', 'rest', 'restUnnamed', 'asystole', 'atrialStandstill'].includes(step)
    ? null
    : beat;
  const wave = ofAtria
    ? (atrial?.p ?? null)
    : ventricles.is === 'being excited'
      ? (last?.qrs ?? null)
      : ventricles.is === 'recovering' && step === 'recovery'
        ? (last?.t ?? null)
        : null;
  return {
    step,
    atria,
    node,
    branches,
    ventricles,
    beat: told ? record.beats.indexOf(told) : null,
    wave,
  };
}

const nothing = (step: Step): Phase => ({
  step,
  atria: UNKNOWN,
  node: 'not known',
  branches: 'not known',
  ventricles: UNKNOWN,
  beat: null,
  wave: null,
});

/** Everything about a second that its phases depend on; nothing is taken from beyond what cannot be read. */
interface Place {
  readonly rhythm: StripAnalysis['rhythms'][number]['name'] | null;
  /** The beat whose QRS came last, and the one whose QRS comes next. */
  readonly last: LiveBeat | null;
  readonly next: LiveBeat | null;
  /** The P that came last. */
  readonly atrial: Atrial | null;
}

function placeOf(
  { beats, loneP, rhythms, quality }: ElectricalRecord,
  second: number,
): Place | null {
  const span = quality.spans.find(({ from, to }) => second >= from && second < to);
  const rhythm = rhythms.find(({ from, to }) => second >= from && second < to)?.name ?? null;
  if (!span?.readable || rhythm === 'not readable') return null;
  const index = lastAtOrBefore(beats, second, ventricularOnset);
  const inSpan = <T>(one: T | undefined, time: (one: T) => number): T | null =>
    one !== undefined && time(one) >= span.from && time(one) < span.to ? one : null;
  const last = inSpan(beats[index], ({ time }) => time);
  const next = inSpan(beats[index + 1], ({ time }) => time);
  const lone = inSpan(
    loneP[lastAtOrBefore(loneP, second, ({ onset }) => onset)],
    ({ peak }) => peak,
  );
  const candidates: Atrial[] = [
    ...(lone ? [{ p: lone, beat: null }] : []),
    ...[last, next].flatMap((beat) =>
      beat?.p && beat.p.onset <= second ? [{ p: beat.p, beat }] : [],
    ),
  ];
  const atrial = candidates.sort((a, b) => b.p.onset - a.p.onset)[0] ?? null;
  return { rhythm, last, next, atrial };
}

/** When the ventricles begin, at the earliest that the beat's marks allow. */
const ventricularOnset = ({ qrs, p, time }: LiveBeat): number =>
  qrs?.onset ?? Math.min(p?.end ?? time, time);

const shareOf = ({ onset, end }: ToldWave, second: number): number =>
  end > onset ? Math.min(1, (second - onset) / (end - onset)) : 1;

const isWithin = ({ onset, end }: ToldWave, second: number): boolean =>
  second >= onset && second < end;

function ventriclesAt({ rhythm, last, next }: Place, second: number): Muscle {
  if (last === null) return rhythm === 'asystole' ? { is: 'still' } : UNKNOWN;
  const { qrs, t } = last;
  if (qrs && isWithin(qrs, second)) {
    return { is: 'being excited', share: shareOf(qrs, second), from: originOf(last) };
  }
  if (t === null) return UNKNOWN;
  if (second < t.onset) return qrs === null ? UNKNOWN : { is: 'excited' };
  if (second < t.end) return { is: 'recovering', share: shareOf(t, second) };
  if (rhythm === 'asystole') return { is: 'still' };
  return next === null ? UNKNOWN : REST;
}

function originOf({ kind }: LiveBeat): Origin {
  switch (kind) {
    case 'sinus':
    case 'supraventricular premature':
    case 'junctional escape':
    case 'aberrant':
      return 'branches';
    case 'ventricular premature':
    case 'ventricular':
    case 'ventricular escape':
      return 'ventricle';
    case 'fusion':
      return 'branches and ventricle';
    case 'unclassified':
      return 'not known';
  }
}

/** Beats that the atria lead: one without a P has it hidden. */
const isLedByAtria = ({ kind }: LiveBeat): boolean =>
  kind === 'sinus' ||
  kind === 'supraventricular premature' ||
  kind === 'aberrant' ||
  kind === 'fusion' ||
  kind === 'unclassified';

/** Until when the ventricles of a beat are at work; its QRS where T was withheld. */
const overAt = ({ t, qrs, time }: LiveBeat): number => t?.end ?? qrs?.end ?? time;

function atriaAt({ rhythm, last, next, atrial }: Place, second: number): Muscle {
  if (rhythm === 'atrial fibrillation') return { is: 'in disorder' };
  if (rhythm === 'atrial standstill') return { is: 'still' };
  if (atrial && isWithin(atrial.p, second)) {
    return {
      is: 'being excited',
      share: shareOf(atrial.p, second),
      from: originOfP(atrial, rhythm),
    };
  }
  if (atrial?.beat && atrial.beat === next) return { is: 'excited' };
  if (atrial && atrial.beat === null && second < atrial.p.end + STOP_SHOWN)
    return { is: 'excited' };
  const isAtWork = last !== null && second < overAt(last);
  if (isAtWork) {
    // A P that fell into the QRS or T of a beat that did not need one cannot be seen.
    return last.p || isLedByAtria(last) ? { is: 'recovering unseen' } : UNKNOWN;
  }
  if (next && next.p === null && isLedByAtria(next)) return UNKNOWN;
  if (rhythm === 'asystole') return { is: 'still' };
  return last === null || next === null ? UNKNOWN : REST;
}

/** P waves of blocks march with the sinus node's own cycle; that is part of their proof. */
function originOfP({ beat }: Atrial, rhythm: Place['rhythm']): Origin {
  if (beat) return beat.kind === 'sinus' || beat.kind === 'fusion' ? 'sinus node' : 'not known';
  return rhythm?.includes('atrioventricular block') || rhythm?.includes('sinus')
    ? 'sinus node'
    : 'not known';
}

/** From the end of P to the QRS that it leads to. */
function conduction({ next, atrial }: Place, second: number): { readonly share: number } | null {
  if (!next?.qrs || atrial === null || atrial.beat !== next || second < atrial.p.end) return null;
  const { end } = atrial.p;
  return { share: (second - end) / Math.max(1e-6, next.qrs.onset - end) };
}

function nodeAt(place: Place, second: number): Node {
  const { rhythm, last, next, atrial } = place;
  if (
    atrial &&
    atrial.beat === null &&
    second >= atrial.p.end &&
    second < atrial.p.end + STOP_SHOWN
  ) {
    return 'blocked';
  }
  const way = conduction(place, second);
  if (way && next) {
    const origin = originOf(next);
    if (origin === 'ventricle' || origin === 'not known') return 'not known';
    return way.share < HELD_IN_NODE ? 'holding' : 'passing';
  }
  const isInQrs = last?.qrs && isWithin(last.qrs, second);
  if (isInQrs) {
    if (last.kind === 'junctional escape') return 'starting';
    return last.kind === 'unclassified' ? 'not known' : 'at rest';
  }
  if (rhythm === 'atrial fibrillation') return 'not known';
  return last === null || (next === null && rhythm !== 'asystole') ? 'not known' : 'at rest';
}

function branchesAt(place: Place, second: number): Branches {
  const { rhythm, last, next } = place;
  if (last?.qrs && isWithin(last.qrs, second)) {
    const origin = originOf(last);
    return origin === 'ventricle' ? 'not used' : origin === 'not known' ? 'not known' : 'carrying';
  }
  const node = nodeAt(place, second);
  if (node === 'passing') return 'carrying';
  if (node === 'not known' && rhythm !== 'atrial fibrillation') return 'not known';
  return last === null || (next === null && rhythm !== 'asystole') ? 'not known' : 'at rest';
}

const EXCITED_STEP: Readonly<Record<LiveBeat['kind'], Step>> = {
  sinus: 'ventricles',
  'supraventricular premature': 'ventricles',
  'ventricular premature': 'ventricularEarly',
  ventricular: 'ventricularOwn',
  'ventricular escape': 'ventricularOwn',
  'junctional escape': 'junction',
  fusion: 'fusion',
  aberrant: 'aberrant',
  unclassified: 'unclassified',
};

/** What to say first where several things happen at once: what sets out before what lasts. */
function stepOf(
  { atria, node, ventricles }: Pick<Phase, 'atria' | 'node' | 'ventricles'>,
  { rhythm, last, next, atrial }: Place,
  second: number,
): Step {
  if (ventricles.is === 'being excited' && last) return EXCITED_STEP[last.kind];
  if (atria.is === 'being excited') return atria.from === 'sinus node' ? 'atria' : 'atriaElsewhere';
  if (node === 'blocked' && atrial) {
    return last && atrial.p.onset < overAt(last) ? 'notReady' : 'blocked';
  }
  if (node === 'holding' || node === 'passing') return node;
  if (next && atrial?.beat === next && second >= atrial.p.end) return 'notConducted';
  if (ventricles.is === 'recovering') return 'recovery';
  if (ventricles.is === 'excited') return 'plateau';
  if (ventricles.is === 'not known' && last && next) {
    return last.qrs === null && second < (last.t?.onset ?? Number.POSITIVE_INFINITY)
      ? 'qrsUnknown'
      : 'recoveryUnknown';
  }
  if (rhythm === 'asystole') return 'asystole';
  if (last === null || next === null) return 'edge';
  if (rhythm === 'atrial fibrillation') return 'atrialFibrillation';
  if (rhythm === 'atrial standstill') return 'atrialStandstill';
  if (atria.is === 'not known') return 'atriaUnknown';
  return rhythm === null || rhythm === 'cannot be told' ? 'restUnnamed' : 'rest';
}
