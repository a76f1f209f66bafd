import { reason } from '../reason.js';
import { ESCAPE } from './accelerated-idioventricular.js';
import { type Evidence, isFromAbove } from './evidence/evidence.js';
import { mainFamily } from './evidence/main-family.js';
import { shareRecovering } from './evidence/recovery.js';
import { isSteep } from './evidence/steep-qrs.js';
import { intervalLimits, SHORTEST_QRS } from './interval-limits.js';
import { rateRange } from './rate-ranges.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';
import { isWithoutPattern } from './without-pattern.js';

/** Fewer intervals show no pattern, or none that is missing. Own choice, not a clinical number. */
const BEATS = 12;
/** Half of the intervals are at least this far off, from the middle one and from the one before. Own choice, not a clinical number. */
export const IRREGULAR = 0.07;
/**
 * Where QRS is not narrow a ventricle may beat by itself, and one that does keeps time: more beats, farther off, show that
 * none does, and no P leads, marked or not. It is no spike, but its T may lie under the next beat. Own choice, not a clinical number.
 */
const WIDE = { beats: 16, irregular: 0.1, recovering: 0.2, sure: 0.75 };
/** Share of the beats that are of one shape. Own choice, not a clinical number. */
const ONE_SHAPE = 0.85;
/**
 * The waves of the atria bend the beats that they meet; so like the narrow ones that they bend less, no beat of a ventricle
 * is. Correlation; own choice, not a clinical number.
 */
const BENT = 0.8;
/** P marked before fewer beats than this share may be noise. Not a clinical number. */
const SOME_P = 0.3;
/** A P that repeats lies over this; without one correlations scatter around 0. Not a clinical number. */
const NO_P = 0.3;
/** A real P would stand this high in the average; under it "no P" means "not seen", mV. From memory, unverified. */
const LOWEST_P = { dog: 0.05, cat: 0.03 } as const;

/** T reaches this share of its QRS; what follows a spike is less. From memory, unverified. */
const T_OF_QRS = 0.05;
/** So many of the beats are followed by it: waves of the atria may hide the others. Own choice, not a clinical number. */
const RECOVERING = 0.3;

/** No P, and intervals that follow no rule. */
export const atrialFibrillation: Rhythm = {
  names: ['atrial fibrillation'],
  criteria: [
    'intervals without any pattern: half of them over 7 % off the middle one and off the one before, and off each of the three before that',
    'no P wave that returns before the QRS',
    'QRS of one shape, most of them with a T that points one way',
    'where QRS is not narrow, as with a blocked branch of the bundle: half of the intervals over 10 % off',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const { patient, beats, above, shapes, atrial, beatToBeat, unevenness, breath } = evidence;
    const limits = intervalLimits(patient);
    if (!limits || beats.length < BEATS || above.length < 0.8 * beats.length) return [];
    const main = mainFamily(evidence);
    const family = shapes.families[main.index];
    const width = family?.qrsDuration ?? family?.qrsAtLeast ?? Number.NaN;
    if (!isSteep(family) || !(width >= SHORTEST_QRS)) return [];
    // Of a QRS whose ends cannot be seen the least width is known.
    const isNarrow = (family?.qrsDuration ?? Number.NaN) <= limits.narrowQrs;
    const oneShape = isNarrow
      ? Math.max(main.share, shareOfOneLook(evidence, main.index))
      : main.share;
    if (oneShape < ONE_SHAPE) return [];
    const isWide = evidence.widths[main.index] === 'wide' || !isNarrow;
    const recovering = isWide ? WIDE.recovering : RECOVERING;
    if (shareRecovering(above, T_OF_QRS * family!.height) < recovering) return [];
    const irregular = isWide ? WIDE.irregular : IRREGULAR;
    if (!isWithoutPattern(evidence.intervals, irregular) || breath === 'linked') return [];
    const lowest = patient.species === 'cat' ? LOWEST_P.cat : LOWEST_P.dog;
    const marked = atrial.asked > 0 ? atrial.withP / atrial.asked : 0;
    const unseen = marked < SOME_P ? 0 : atrial.coherence;
    if (isWide && (beats.length < WIDE.beats || isSlow(evidence) || showsP(evidence, lowest))) {
      return [];
    }
    // Noise that would hide a P leaves the question open.
    if (unseen > NO_P || !(evidence.beforeQrs.noise < lowest)) return [];
    return [
      finding(
        'atrial fibrillation',
        evidence,
        (isWide ? WIDE.sure : 0.9) * oneShape * (1 - unseen),
        [
          reason('half of RR beyond', { share: unevenness, limit: irregular }),
          reason('from beat to beat', { share: beatToBeat, limit: irregular }),
          reason('P before beats', { withP: atrial.withP, asked: atrial.asked, limit: SOME_P }),
          reason('alike before the QRS', { correlation: unseen, limit: NO_P }),
          isWide
            ? reason('wide QRS', { width, limit: limits.wideQrs })
            : reason('narrow QRS', { width, limit: limits.narrowQrs }),
        ],
        { range: limits.used },
      ),
    ];
  },
};

/** Share of the beats from above that are of the largest shape, or like it as far as the waves of the atria leave them so. */
function shareOfOneLook({ beats, above, shapes }: Evidence, main: number): number {
  if (main !== 0) return 0;
  const alike = beats.filter(
    (beat, i) =>
      isFromAbove(beat) && (shapes.of[i] === 0 || (shapes.off(i)?.likeOwn ?? -1) >= BENT),
  );
  return alike.length / above.length;
}

/** Whether a wave as high as a P returns before the beginning of QRS. */
function showsP({ beforeOnset }: Evidence, lowest: number): boolean {
  const { coherence, height } = beforeOnset();
  return coherence > NO_P && height >= lowest;
}

/** Whether a ventricle may be dying, or escape: that keeps no time either. */
function isSlow({ patient, rate }: Evidence): boolean {
  const range = rateRange(patient);
  return range === null || !(rate >= ESCAPE * range.low);
}
