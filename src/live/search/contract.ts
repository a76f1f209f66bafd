/** One part of a page under its heading, as the search finds and shows it. */
interface Passage {
  /** Index of its page. */
  readonly page: number;
  /** Id of its heading; empty for the beginning of the page. */
  readonly at: string;
  readonly heading: string;
  /** What it says, in its order. */
  readonly texts: readonly (FirstSaid | SaidAgain)[];
}

/** A text where the index says it for the first time. Many pages say the same, so that it is written but once. */
interface FirstSaid {
  readonly text: string;
}

interface SaidAgain {
  /** Which of the texts that were said before: the first is 0. */
  readonly again: number;
}

/** Everything that can be found in one language. It lies beside the page as a script, since a page opened from a folder may not fetch. */
export interface SearchIndex {
  readonly pages: readonly {
    readonly file: string;
    readonly title: string;
    readonly lead: string;
  }[];
  readonly passages: readonly Passage[];
  /** Abbreviations as `fold` gives them, each with the phrases that it stands for. */
  readonly abbreviations: Readonly<Record<string, readonly string[]>>;
}

/** The name under which the indexes stand on `globalThis`, each under the tag of its language. */
export const SEARCH_INDEXES = 'thriceSearch';

/** What the search says; the page holds them as JSON in the element with this id. */
export const SEARCH_WORDS = 'search-words';

export interface SearchWords {
  readonly loading: string;
  readonly failed: string;
  /** `{query}` stands for what was asked. */
  readonly none: string;
  readonly advice: string;
  readonly loosely: string;
  /** By plural category; `{passages}` and `{pages}` stand for the counts. */
  readonly found: Readonly<Record<'one' | 'other', string>>;
  readonly pages: Readonly<Record<'one' | 'other', string>>;
}
