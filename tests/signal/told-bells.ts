import { analyseStrip } from '../../src/signal/analyse.js';
import { NORMAL } from '../../src/signal/rhythm/rhythm.js';
import type { StripAnalysis } from '../../src/signal/strip-analysis.js';
import { type Bell, syntheticLead } from '../tools/synthetic-strip.js';
import { patientOf } from './rhythm/strips.js';

/** Waves with the time that they are counted from, s. */
export type BellBeat = readonly [time: number, waves: readonly Bell[]];

/** What is told of a dog whose lead is drawn by bells, at 500 Hz with a little hiss. */
export function toldBells(beats: readonly BellBeat[], duration: number): StripAnalysis {
  const lead = syntheticLead({
    rate: 500,
    duration,
    beats: beats.map(([time]) => time),
    waves: (i) => beats[i]![1],
    noise: 0.004,
  });
  return analyseStrip([lead], {
    patient: patientOf('dog'),
    breath: { annotations: [], channels: [] },
  });
}

export const names = ({ rhythms }: StripAnalysis): string[] => rhythms.map(({ name }) => name);
export const events = ({ rhythms }: StripAnalysis): string[] =>
  rhythms.flatMap(({ within }) => within.map(({ name }) => name));
export const isNormal = (name: string): boolean => NORMAL.some((each) => each === name);
