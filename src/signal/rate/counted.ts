import { type Seconds, seconds } from '../../units/brands.js';
import { stretchOf } from '../filter/ascending.js';
import type { Span } from '../quality/span.js';
import type { ReasonKey } from '../reason.js';
import type { FoundRhythm } from '../strip-analysis.js';

/** A stretch of the strip, in s after its first sample. */
export interface Counted {
  readonly from: Seconds;
  readonly to: Seconds;
}

/** What says that a rhythm was read from the trace as a whole: what was found in it one by one is no row of beats. */
const FROM_THE_TRACE: ReasonKey = 'trace moves';

/** What a stretch may be in which what was found one by one need not be beats. */
const PERHAPS_NO_BEATS: readonly FoundRhythm['possible'][number][] = [
  'asystole',
  'P waves that no QRS follows',
  'a lead that came off',
  'T or P waves counted as beats',
  'premature beats on the T wave',
];

/**
 * What may be missing for a name though each beat is known to be one, with its P before it: that no P is hidden, that the
 * QRS are narrow and alike, that they are many, and which rate is usual. A beat without P may be a P itself.
 */
const BESIDE_THE_BEATS: readonly ReasonKey[] = [
  'P between P',
  'P between P unseen',
  'rise of P',
  'short PR',
  'one shape',
  'narrow QRS',
  'beats from above',
  'no QRS limit',
  'fastest quarter',
  'no rate range',
];

type Told = Pick<FoundRhythm, 'name' | 'from' | 'to' | 'possible' | 'because'>;

/**
 * Where the beats that were found count as a rate: each stretch that can be read and whose beats are known to be beats of
 * the ventricles, from its beginning to its end; neighbours are one, and a pause between two that can be read is part of
 * both. A trace without beats, as in fibrillation, also gives a detector something to count, and so do T and P waves: such
 * a number is no rate. Common practice: a rate is told of QRS complexes.
 */
export function countedStretches(
  rhythms: readonly Told[],
  beats: readonly { readonly time: number }[],
  spans: readonly Span[],
): Counted[] {
  const stretches: Counted[] = [];
  rhythms.forEach((rhythm, i) => {
    if (!areBeats(rhythm) && !isPause(i, rhythms, beats, spans)) return;
    const last = stretches.at(-1);
    if (last && last.to === rhythm.from) {
      stretches[stretches.length - 1] = { from: last.from, to: rhythm.to };
    } else stretches.push({ from: rhythm.from, to: rhythm.to });
  });
  return stretches;
}

/** What says that a stretch without beats holds some that were missed. */
const MISSED: ReasonKey = 'QRS in pauses';

/** Whether a stretch between two that are counted was seen throughout and shows no beat. */
function isPause(
  at: number,
  rhythms: readonly Told[],
  beats: readonly { readonly time: number }[],
  spans: readonly Span[],
): boolean {
  const [before, { from, to, because }, after] = [rhythms[at - 1], rhythms[at]!, rhythms[at + 1]];
  return (
    before !== undefined &&
    after !== undefined &&
    areBeats(before) &&
    areBeats(after) &&
    !because.some(({ key }) => key === MISSED) &&
    spans.some((span) => span.readable && span.from <= from && span.to >= to) &&
    stretchOf(beats, timeOf, from, to).length === 0
  );
}

const timeOf = ({ time }: { readonly time: number }): number => time;

function areBeats({ name, possible, because }: Told): boolean {
  if (name === 'not readable') return false;
  if (because.some(({ key }) => key === FROM_THE_TRACE)) return false;
  if (name !== 'cannot be told') return true;
  if (possible.length > 0) return !possible.some((one) => PERHAPS_NO_BEATS.includes(one));
  return because.length > 0 && because.every(({ key }) => BESIDE_THE_BEATS.includes(key));
}

/** Counted stretches as spans that can be read, for whoever sorts beats into them. */
export const asSpans = (stretches: readonly Counted[]): Span[] =>
  stretches.map(({ from, to }) => ({ from, to, readable: true, why: '' }));

/** The part of each stretch that lies between two times, s. */
export const countedWithin = (stretches: readonly Counted[], from: number, to: number): Counted[] =>
  stretches.flatMap((stretch) => {
    const within = {
      from: seconds(Math.max(stretch.from, from)),
      to: seconds(Math.min(stretch.to, to)),
    };
    return within.from < within.to ? [within] : [];
  });
