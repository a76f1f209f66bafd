import type { MarkedBeat } from '../marked-beat.js';
import { reason } from '../reason.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

const isFusion = ({ kind }: MarkedBeat): boolean => kind === 'fusion';

/** Beats that the sinus node and a ventricle start together. */
export const ventricularFusion: Rhythm = {
  names: ['ventricular fusion complexes'],
  criteria: [
    'on time, after a P at the usual PR or up to 0.06 s nearer',
    "QRS of another shape than the heart's own: between that and another, not wide, or changing from beat to beat",
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const met = evidence.beats.filter(isFusion);
    if (met.length === 0) return [];
    const { length } = evidence.beats;
    return [
      finding(
        'ventricular fusion complexes',
        evidence,
        met.reduce((sum, { confidence }) => sum + confidence, 0) / met.length,
        [reason('fusion beats', { count: met.length, beats: length })],
        { beats: met.map(({ time }) => time) },
      ),
    ];
  },
};
