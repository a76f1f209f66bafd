import type { Said } from '../handout.js';

/** Several sentences as one passage that states the facts of all. */
export function inOnePassage(said: readonly Said[]): Said {
  return {
    runs: said.flatMap(({ runs }, index) => (index === 0 ? runs : [{ text: ' ' }, ...runs])),
    facts: [...new Set(said.flatMap(({ facts }) => facts))],
  };
}
