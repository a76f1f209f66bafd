/** A stream of repeatable numbers: the same seed gives the same stream on every machine. */
export interface Random {
  /** Uniform in [0, 1). */
  next(): number;
  /** Uniform in [low, high). */
  between(low: number, high: number): number;
  /** Normal with mean 0 and standard deviation 1. */
  gaussian(): number;
}

/**
 * Seeded stream: a Weyl sequence (step 0x6d2b79f5) with an integer mixing step, 32 bits of state.
 * Good enough to jitter a heartbeat, not for anything secret.
 */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    gaussian: () => {
      // Twelve uniforms, less 6: variance 1 without a logarithm or cosine that engines may round differently.
      let sum = -6;
      for (let i = 0; i < 12; i += 1) sum += next();
      return sum;
    },
  };
}
