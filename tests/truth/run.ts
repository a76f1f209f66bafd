import { analyseStrip } from '../../src/signal/analyse.js';
import type { StripAnalysis } from '../../src/signal/strip-analysis.js';
import { patientOf } from '../signal/rhythm/strips.js';
import { TRUE_NAMES } from './catalogue.js';
import { type Judgement, judge } from './judge.js';
import { LEAD_COUNTS, LEVELS, NOISES, SPECIES, type StripKey, stripOf } from './strip.js';

export interface Result extends StripKey, Judgement {
  /** Drawn rate, beats/min. */
  readonly rate: number;
  /** Share of the time in which noise leaves a P to be seen. */
  readonly legible: number;
}

/** Which strips of the grid; what is left out is not restricted. */
export type Choice = Partial<StripKey>;

/** Every strip of the grid that the choice allows, `seeds` of each. */
export function grid(seeds: number, choice: Choice = {}): StripKey[] {
  const pick = <T>(all: readonly T[], one: T | undefined): readonly T[] =>
    one === undefined ? all : [one];
  const numbers = Array.from({ length: seeds }, (_, i) => i + 1);
  const keys: StripKey[] = [];
  for (const rhythm of pick(TRUE_NAMES, choice.rhythm))
    for (const species of pick(SPECIES, choice.species))
      for (const noise of pick(NOISES, choice.noise))
        for (const level of pick(LEVELS, choice.level))
          for (const seed of pick(numbers, choice.seed))
            for (const leads of pick(LEAD_COUNTS, choice.leads))
              if ((noise === 'clean') === (level === 0))
                keys.push({ rhythm, species, noise, level, seed, leads });
  return keys;
}

export function resultOf(key: StripKey, base: number): Result {
  return readStrip(key, base).result;
}

/** The strip read, with all that was said of it. */
export function readStrip(
  key: StripKey,
  base: number,
): { readonly result: Result; readonly analysis: StripAnalysis } {
  const { plan, leads, breaths, rate, legible } = stripOf(key, base);
  const analysis = analyseStrip(leads, {
    patient: patientOf(key.species),
    breath: { annotations: breaths },
  });
  return { analysis, result: { ...key, rate, legible, ...judge(key.rhythm, plan, analysis) } };
}
