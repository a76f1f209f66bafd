import { bad, good, type Outcome, type Place, type Problem } from '../record/problem.js';
import { doubtsIn, weightIn } from './doubts.js';

/** A text of an author that would become public. */
export interface FreeText {
  readonly place: Place;
  readonly text: string;
  /** A label, such as a title, can neither lose a sentence nor have a word of it replaced. */
  readonly kind: 'prose' | 'label';
}

/** What an author has decided on a passage, word for word. */
export interface Decision {
  readonly place: Place;
  readonly passage: string;
  readonly decision: 'publish' | 'leave out';
}

/** A name with the neutral word for it. */
export interface KnownName {
  readonly name: string;
  readonly neutral: string;
}

/** Texts as they may be public. */
export interface Cleared {
  readonly say: (text: string) => string;
  /** How many names were replaced. */
  readonly replaced: number;
}

/** Nothing is known of the case, so nothing is changed. */
export const AS_WRITTEN: Cleared['say'] = (text) => text;

/**
 * Replaces the names of the case by neutral words and leaves out what its author has decided to leave out; or every
 * passage that looks like an identifier and has no decision, and every decision whose passage is not there any more.
 * @param weight kg, exact and as public documents round it
 */
export function clearPassages(
  texts: readonly FreeText[],
  names: readonly KnownName[],
  decisions: readonly Decision[],
  weight: { readonly exact: number; readonly rounded: number },
): Outcome<Cleared> {
  const used = new Set<Decision>();
  const problems: Problem[] = [];
  const said = new Map<string, string>();
  let replaced = 0;
  for (const { place, text, kind } of texts) {
    const sentences = sentencesOf(text).map((sentence) => {
      const doubts = [...doubtsIn(sentence), ...weightIn(sentence, weight.exact, weight.rounded)];
      const decided = decisions.find(({ passage }) => folded(passage) === folded(sentence));
      if (decided) used.add(decided);
      if (decided?.decision === 'leave out' && kind === 'prose') return '';
      if (doubts.length > 0 && decided?.decision !== 'publish') {
        problems.push(
          ...doubts.map(({ what, text: doubt }) => asked(place, what, doubt, sentence)),
        );
      }
      return sentence;
    });
    const neutral = withoutNames(sentences.join(''), kind === 'label' ? [] : names);
    replaced += neutral.replaced;
    said.set(text, neutral.text);
  }
  for (const decision of decisions) {
    if (used.has(decision)) continue;
    problems.push({
      kind: 'a decision on no passage',
      ...decision.place,
      found: `a decision on "${decision.passage}", which no public text says`,
      expected: 'each decision on a passage that is there, word for word',
      mend: 'Look at the passage as it is now, and decide anew or take the decision out.',
    });
  }
  return problems.length > 0
    ? bad(...problems)
    : good({ say: (text) => said.get(text) ?? text, replaced });
}

/** Sentences with the space that follows each, so that together they are the text. */
const sentencesOf = (text: string): string[] => text.split(SENTENCE_END);

/** Titles before a name in either language; their stop ends no sentence. */
const TITLES = 'Mr|Mrs|Ms|Miss|Dr|Dra|Sr|Sra|Don|Doña|Prof';
const SENTENCE_END = new RegExp(
  `(?<=[.!?]\\s+)(?<!(?:${TITLES}|No|vs|e\\.g|i\\.e)\\.\\s+)(?=\\S)`,
  'u',
);

const folded = (text: string): string => text.trim().replace(/\s+/gu, ' ');

const asked = (place: Place, what: string, doubt: string, sentence: string): Problem => ({
  kind: 'a passage that may lead to somebody',
  ...place,
  found: `"${doubt}", which looks like ${what}, in "${folded(sentence)}"`,
  expected: 'nothing in public that may lead to a person, a place or a day',
  mend: 'Reword it, or decide in case.yaml under "public passages": the passage word for word, and "decision: leave out", or "decision: publish" with "because:".',
});

/** A form of address before a name: "Mrs. the owner" would be no sentence, so the name stays, and the search refuses it. */
const ADDRESSED = `(?<!(?:${TITLES})\\.?\\s)`;

function withoutNames(written: string, names: readonly KnownName[]) {
  let replaced = 0;
  const longestFirst = names.toSorted((a, b) => b.name.length - a.name.length);
  const text = longestFirst.reduce((rest, { name, neutral }) => {
    const escaped = name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
    const whole = new RegExp(`${ADDRESSED}(?<![\\p{L}\\p{N}])${escaped}(?![\\p{L}\\p{N}])`, 'gu');
    return rest.replace(whole, (_, at: number, all: string) => {
      replaced += 1;
      const begins = /(?:^|[.!?\n])[\s#>*_"“¿¡-]*$/u.test(all.slice(Math.max(0, at - 20), at));
      return begins ? neutral.charAt(0).toUpperCase() + neutral.slice(1) : neutral;
    });
  }, written);
  return { text, replaced };
}
