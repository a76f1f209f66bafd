/** Numbers that are the same in every run of one seed. */
export interface Random {
  /** 0 to `count` - 1. */
  readonly below: (count: number) => number;
  readonly pick: <T>(from: readonly T[]) => T;
  readonly chance: (share: number) => boolean;
}

/** Mulberry32, a generator of 32 bits. Codes of the method: not clinical numbers. */
export function randomOf(seed: number): Random {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (count: number) => Math.floor(next() * count);
  return {
    below,
    pick: (from) => from[below(from.length)] as (typeof from)[number],
    chance: (share) => next() < share,
  };
}
