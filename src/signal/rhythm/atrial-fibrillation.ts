import { beatToBeatChange } from '../filter/spread.js';
import { reason } from '../reason.js';
import { isSteep, mainFamily } from './evidence/main-family.js';
import { shareRecovering } from './evidence/recovery.js';
import { intervalLimits, isNarrow } from './interval-limits.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** Fewer intervals show no pattern, or none that is missing. Own choice, not a clinical number. */
const BEATS = 12;
/** Half of the intervals are at least this far off, from the middle one and from the one before. Own choice, not a clinical number. */
export const IRREGULAR = 0.07;
/** Intervals that come back at every second, third or fourth beat follow a rule: groups of beats, or P counted among them. Own choice, not a clinical number. */
const GROUPS = [2, 3, 4];
/** P marked before fewer beats than this share may be noise. Not a clinical number. */
const SOME_P = 0.3;
/** A P that repeats lies over this; without one correlations scatter around 0. Not a clinical number. */
const NO_P = 0.3;
/** A real P would stand this high in the average; under it "no P" means "not seen", mV. From memory, unverified. */
const LOWEST_P = { dog: 0.05, cat: 0.03 } as const;

/** T reaches this share of its QRS; what follows a spike is less. From memory, unverified. */
const T_OF_QRS = 0.05;
/** So many of the beats are followed by it: waves of the atria may hide the others. Own choice, not a clinical number. */
const RECOVERING = 0.5;

/** No P, and intervals that follow no rule. */
export const atrialFibrillation: Rhythm = {
  names: ['atrial fibrillation'],
  criteria: [
    'intervals without any pattern: half of them over 7 % off the middle one and off the one before, and off each of the three before that',
    'no P wave that returns before the QRS',
    'mostly narrow QRS of one shape, most of them with a T that points one way',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const { patient, beats, above, shapes, atrial, beatToBeat, unevenness, breath } = evidence;
    const limits = intervalLimits(patient);
    if (!limits || beats.length < BEATS || above.length < 0.8 * beats.length) return [];
    const main = mainFamily(evidence);
    const width = shapes.families[main.index]?.qrsDuration ?? Number.NaN;
    if (evidence.widths[main.index] === 'wide') return [];
    if (main.share < 0.85 || !isSteep(shapes.families[main.index]) || !isNarrow(width, limits))
      return [];
    const height = shapes.families[main.index]!.height;
    if (shareRecovering(above, T_OF_QRS * height) < RECOVERING) return [];
    if (unevenness < IRREGULAR || beatToBeat < IRREGULAR || breath === 'linked') return [];
    if (GROUPS.some((later) => beatToBeatChange(evidence.intervals, later) < IRREGULAR)) return [];
    const lowest = patient.species === 'cat' ? LOWEST_P.cat : LOWEST_P.dog;
    const marked = atrial.asked > 0 ? atrial.withP / atrial.asked : 0;
    const unseen = marked < SOME_P ? 0 : atrial.coherence;
    // Noise that would hide a P leaves the question open.
    if (unseen > NO_P || !(evidence.beforeQrs.noise < lowest)) return [];
    return [
      finding(
        'atrial fibrillation',
        evidence,
        0.9 * main.share * (1 - unseen),
        [
          reason('half of RR beyond', { share: unevenness, limit: IRREGULAR }),
          reason('from beat to beat', { share: beatToBeat, limit: IRREGULAR }),
          reason('P before beats', { withP: atrial.withP, asked: atrial.asked, limit: SOME_P }),
          reason('alike before the QRS', { correlation: unseen, limit: NO_P }),
          reason('narrow QRS', { width, limit: limits.narrowQrs }),
        ],
        { range: limits.used },
      ),
    ];
  },
};
