import { bitsOf } from './manners.js';
import type { Spelling } from './spellings.js';

/**
 * All spellings, letter by letter, with how the letters may stand. Where the letters of a text lead down to the end of a
 * spelling, `match.ts` decides whether it is meant; where they do not, none begins. The root is 0.
 */
export interface Trie {
  /** The class of a letter; 0 for one that stands in no spelling. */
  readonly classOf: (letter: number) => number;
  /** Where the edge of a letter's class leads from a node; 0 where there is none. */
  readonly step: (node: number, own: number) => number;
  /** Bits of the last letter of each node. */
  readonly bits: Uint8Array;
  /** 1 where some spelling ends. */
  readonly ends: Uint8Array;
  /** The spellings that end in a node, by their place in the list. */
  readonly endingIn: (node: number) => readonly number[];
}

export function trieFor(spellings: readonly Spelling[]): Trie {
  const classes = new Map<number, number>();
  for (const { letters } of spellings) {
    for (const letter of letters) if (!classes.has(letter)) classes.set(letter, classes.size + 1);
  }
  // Nodes are numbered level by level and the children of each in a row, those of the next node behind them: a step touches
  // few places in memory, and a node's row ends where the next one's begins.
  const most = spellings.reduce((sum, { letters }) => sum + letters.length, 2);
  const rows = new Int32Array(most);
  const own = new Int32Array(most);
  const bits = new Uint8Array(most);
  const ends = new Uint8Array(most);
  const endings = new Map<number, number[]>();
  const order = inOrder(spellings);
  let nodes = 1;
  // Where the spellings that pass through each node of a level begin in that order, and where they end.
  let level = Int32Array.of(0, order.length);
  let node = 0;
  for (let depth = 0; level.length > 1; depth++) {
    const deeper: number[] = [];
    for (let i = 0; i < level.length; i += 2, node++) {
      rows[node] = nodes;
      let at = level[i] as number;
      const end = level[i + 1] as number;
      const letterAt = (place: number): number | undefined =>
        (spellings[order[place] as number] as Spelling).letters[depth];
      const here: number[] = [];
      while (at < end && letterAt(at) === undefined) here.push(order[at++] as number);
      if (here.length > 0) {
        ends[node] = 1;
        endings.set(node, here);
      }
      while (at < end) {
        const letter = letterAt(at) as number;
        const begin = at;
        let allowed = 0;
        for (; at < end && letterAt(at) === letter; at++) {
          allowed |= bitsOf(spellings[order[at] as number] as Spelling, depth);
        }
        own[nodes] = classes.get(letter) as number;
        bits[nodes++] = allowed;
        deeper.push(begin, at);
      }
    }
    level = Int32Array.from(deeper);
  }
  rows[node] = nodes;
  return {
    classOf: (letter) => classes.get(letter) ?? 0,
    step: (from, letter) => {
      const end = rows[from + 1] as number;
      for (let child = rows[from] as number; child < end; child++) {
        if (own[child] === letter) return child;
      }
      return 0;
    },
    ...{ bits, ends },
    endingIn: (at) => endings.get(at) ?? [],
  };
}

/** The places of spellings in such an order that those which begin alike stand together, the shortest first. */
function inOrder(spellings: readonly Spelling[]): Int32Array {
  const texts = spellings.map(({ letters }) => String.fromCodePoint(...letters));
  const order = Int32Array.from(spellings, (_, which) => which);
  return order.sort((a, b) => {
    const [one, other] = [texts[a] as string, texts[b] as string];
    return one < other ? -1 : one > other ? 1 : a - b;
  });
}
