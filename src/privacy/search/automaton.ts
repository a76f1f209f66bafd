/**
 * Finds many words in one pass over a text (Aho and Corasick, Efficient string matching, CACM 18, 1975). A word is a list
 * of letters as numbers; the first state is 0.
 */
export interface Automaton {
  /** The state after a letter. */
  readonly step: (state: number, letter: number) => number;
  /** 1 where some word ends in a state. */
  readonly ends: Uint8Array;
  /** The words that end in a state, by their place in the list, the longest first. */
  readonly endingIn: (state: number) => number[];
}

export function automatonFor(words: readonly (readonly number[])[]): Automaton {
  const classes = new Map<number, number>();
  for (const word of words) {
    for (const letter of word) if (!classes.has(letter)) classes.set(letter, classes.size + 1);
  }
  const near = new Uint16Array(0x10000);
  for (const [letter, own] of classes) if (letter < 0x10000) near[letter] = own;
  const width = classes.size + 1;
  const most = words.reduce((sum, word) => sum + word.length, 1);
  const edges = edgeTable(most);
  const wordsAt = new Map<number, number[]>();
  // Parent and letter of each state, in the order in which states were made.
  const parent = new Int32Array(most);
  const letterTo = new Int32Array(most);
  const depth = new Int32Array(most);
  let states = 1;
  words.forEach((word, index) => {
    let state = 0;
    for (const letter of word) {
      const own = classes.get(letter) as number;
      let next = edges.get(state * width + own);
      if (next < 0) {
        next = states++;
        parent[next] = state;
        letterTo[next] = own;
        depth[next] = (depth[state] as number) + 1;
        edges.set(state * width + own, next);
      }
      state = next;
    }
    const there = wordsAt.get(state);
    if (there) there.push(index);
    else wordsAt.set(state, [index]);
  });

  const root = new Int32Array(width);
  for (let own = 1; own < width; own++) root[own] = Math.max(0, edges.get(own));
  const fail = new Int32Array(states);
  const follow = (from: number, own: number): number => {
    let state = from;
    while (state > 0) {
      const next = edges.get(state * width + own);
      if (next >= 0) return next;
      state = fail[state] as number;
    }
    return root[own] as number;
  };
  const ends = new Uint8Array(states);
  const order = Array.from({ length: states - 1 }, (_, i) => i + 1).sort(
    (a, b) => (depth[a] as number) - (depth[b] as number),
  );
  for (const state of order) {
    const up = parent[state] as number;
    fail[state] = up === 0 ? 0 : follow(fail[up] as number, letterTo[state] as number);
    ends[state] = wordsAt.has(state) || ends[fail[state] as number] ? 1 : 0;
  }
  return {
    step: (state, letter) => {
      const own = letter < 0x10000 ? (near[letter] as number) : (classes.get(letter) ?? 0);
      if (own === 0) return 0;
      return state === 0 ? (root[own] as number) : follow(state, own);
    },
    ends,
    endingIn: (state) => {
      const found: number[] = [];
      for (let at = state; at > 0; at = fail[at] as number) found.push(...(wordsAt.get(at) ?? []));
      return found;
    },
  };
}

/** Edges by state and letter; open addressing over flat arrays, as a Map of so many would not fit in a cache. */
function edgeTable(most: number) {
  let size = 16;
  while (size < most * 2) size *= 2;
  const keys = new Float64Array(size).fill(-1);
  const values = new Int32Array(size);
  const mask = size - 1;
  const placeOf = (key: number): number => {
    let place = Math.imul(key | 0, 0x9e3779b1) >>> 0;
    place = (place ^ (place >>> 15)) & mask;
    while (keys[place] !== -1 && keys[place] !== key) place = (place + 1) & mask;
    return place;
  };
  return {
    get: (key: number): number => {
      const place = placeOf(key);
      return keys[place] === key ? (values[place] as number) : -1;
    },
    set: (key: number, value: number): void => {
      const place = placeOf(key);
      keys[place] = key;
      values[place] = value;
    },
  };
}
