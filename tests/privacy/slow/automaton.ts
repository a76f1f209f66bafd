/**
 * Finds many words in one pass over a text (Aho and Corasick, Efficient string matching, CACM 18, 1975). A word is a list
 * of letters as numbers; the first state is 0.
 */
export interface Automaton {
  /** The class of a letter, for `step`; 0 for one that stands in no word. */
  readonly classOf: (letter: number) => number;
  /** The state after a letter of a class. */
  readonly step: (state: number, own: number) => number;
  /** Steps of the first `denseStates` states, at `state * width + class`: what a loop may look up by itself. */
  readonly dense: Int32Array;
  readonly denseStates: number;
  readonly width: number;
  /** 1 where some word ends in a state. */
  readonly ends: Uint8Array;
  /** The words that end in a state, by their place in the list, the longest first. */
  readonly endingIn: (state: number) => number[];
}

/** Steps that are kept as a table, 16 MB of them; deeper states, which a text seldom reaches, are looked up. */
const MOST_DENSE = 4_000_000;

/** Builds the automaton for words of letters as numbers; the order of the words is their place in `endingIn`. */
export function automatonFor(words: readonly (readonly number[])[]): Automaton {
  const classes = new Map<number, number>();
  for (const word of words) {
    for (const letter of word) if (!classes.has(letter)) classes.set(letter, classes.size + 1);
  }
  const width = classes.size + 1;
  const most = words.reduce((sum, word) => sum + word.length, 1);
  const edges = edgeTable(most);
  const wordsAt = new Map<number, number[]>();
  // Level by level, so that a state has a higher number than all that are less deep.
  let level = words.map((_, index) => ({ index, state: 0 }));
  const parent = new Int32Array(most);
  const letterTo = new Int32Array(most);
  let states = 1;
  for (let depth = 0; level.length > 0; depth++) {
    const deeper: typeof level = [];
    for (const { index, state } of level) {
      const word = words[index] as readonly number[];
      if (depth === word.length) {
        const there = wordsAt.get(state);
        if (there) there.push(index);
        else wordsAt.set(state, [index]);
        continue;
      }
      const own = classes.get(word[depth] as number) as number;
      let next = edges.get(state * width + own);
      if (next < 0) {
        next = states++;
        parent[next] = state;
        letterTo[next] = own;
        edges.set(state * width + own, next);
      }
      deeper.push({ index, state: next });
    }
    level = deeper;
  }

  const denseStates = Math.min(states, Math.max(1, Math.floor(MOST_DENSE / width)));
  const dense = new Int32Array(denseStates * width);
  const fail = new Int32Array(states);
  const ends = new Uint8Array(states);
  const step = (from: number, own: number): number => {
    let state = from;
    while (state >= denseStates) {
      const next = edges.get(state * width + own);
      if (next >= 0) return next;
      state = fail[state] as number;
    }
    return dense[state * width + own] as number;
  };
  for (let state = 0; state < states; state++) {
    const up = parent[state] as number;
    // What a state falls back to is less deep, so its own steps are known by now.
    if (state > 0 && up > 0) fail[state] = step(fail[up] as number, letterTo[state] as number);
    const back = fail[state] as number;
    ends[state] = wordsAt.has(state) || ends[back] ? 1 : 0;
    if (state >= denseStates) continue;
    for (let own = 1; own < width; own++) {
      const next = edges.get(state * width + own);
      dense[state * width + own] =
        next >= 0 ? next : state === 0 ? 0 : (dense[back * width + own] as number);
    }
  }
  return {
    classOf: (letter) => classes.get(letter) ?? 0,
    step: (state, own) => (own === 0 ? 0 : step(state, own)),
    ...{ dense, denseStates, width, ends },
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
