/** The Rayleigh test of phases against an even spread around the circle. */
export interface Rayleigh {
  readonly n: number;
  /** Mean resultant length R, 0 (spread evenly, or in opposite pairs) to 1 (all at one phase). */
  readonly meanResultantLength: number;
  /** n R^2. */
  readonly z: number;
  /** Chance of a z at least as large among independent phases; beats are not independent. */
  readonly p: number;
  /** Mean phase in turns, 0 to 1. */
  readonly meanPhase: number;
}

/**
 * Rayleigh's test that phases (turns, 0 to 1) have no preferred direction. With Rn = nR,
 * p = exp(sqrt(1 + 4n + 4(n^2 - Rn^2)) - (1 + 2n)): Zar, Biostatistical Analysis, 4th ed. (1999),
 * page 617, equation 27.4, as quoted in public circular-statistics code.
 */
export function rayleigh(phases: readonly number[]): Rayleigh {
  const n = phases.length;
  let cosine = 0;
  let sine = 0;
  for (const phase of phases) {
    cosine += Math.cos(2 * Math.PI * phase);
    sine += Math.sin(2 * Math.PI * phase);
  }
  const resultant = Math.hypot(cosine, sine);
  const turn = Math.atan2(sine, cosine) / (2 * Math.PI);
  return {
    n,
    meanResultantLength: n === 0 ? 0 : resultant / n,
    z: n === 0 ? 0 : (resultant * resultant) / n,
    p: rayleighP(n, resultant),
    meanPhase: turn < 0 ? turn + 1 : turn,
  };
}

/** p for `n` phases whose unit arrows add up to an arrow `resultant` long. */
export function rayleighP(n: number, resultant: number): number {
  const left = Math.max(0, n * n - resultant * resultant);
  return Math.min(1, Math.exp(Math.sqrt(1 + 4 * n + 4 * left) - (1 + 2 * n)));
}
