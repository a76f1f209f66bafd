import type { SearchIndex } from './contract.js';

/** A passage with all that it says in one. */
export interface WholePassage {
  readonly page: number;
  readonly at: string;
  readonly heading: string;
  readonly text: string;
}

/** The passages of an index, what they say again put in its place. */
export function wholePassages({ passages }: Pick<SearchIndex, 'passages'>): WholePassage[] {
  const said: string[] = [];
  return passages.map(({ texts, ...passage }) => ({
    ...passage,
    text: texts
      .map((one) => {
        if ('again' in one) return said[one.again] ?? '';
        said.push(one.text);
        return one.text;
      })
      .join(' '),
  }));
}
