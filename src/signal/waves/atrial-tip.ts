import { confidenceFrom, type Mark } from './marks.js';

/** P waves in grid positions: of each beat, or of none. */
export interface Atria {
  readonly p: readonly (Mark | null)[];
  readonly lone: readonly Mark[];
}

/** A tip of a P wave, its height over noise. */
export interface Tip {
  readonly at: number;
  readonly sign: number;
  readonly overNoise: number;
}

/** A P is beyond doubt at ten times the noise. */
export const pConfidence = ({ overNoise }: Tip): number =>
  confidenceFrom(overNoise, { hidden: 1, sure: 10 });
