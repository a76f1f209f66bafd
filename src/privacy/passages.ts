import { bad, good, type Outcome, type Place, type Problem } from '../record/problem.js';
import { shortened } from '../record/refusal.js';
import { type Doubt, doubtsIn, type Known } from './doubts.js';
import { TITLES } from './forms/people.js';
import type { Identifier } from './identifiers.js';
import { leaksIn } from './leaks.js';
import { exactlyIn, type Patient, TRAIT_WORDS, type TraitWords, traitsIn } from './traits-told.js';

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

/** What is known of the case that the texts are of. */
export interface CaseKnown extends Known {
  readonly names: readonly KnownName[];
  /** No decision lets these through. */
  readonly identifiers: readonly Identifier[];
  readonly patient: Patient;
}

/** Texts as they may be public. */
export interface Cleared {
  /** @throws on a text that was not among those that were cleared */
  readonly say: (text: string) => string;
  /** How many names were replaced. */
  readonly replaced: number;
  /** Where they tell what small groups may withhold. */
  readonly telling: Telling;
}

/** Problems that passages are once breed, age or sex of the patient are not told: the passages tell them all the same. */
export type Telling = TraitWords<readonly Problem[]>;

/** Nothing is known of the case, so nothing is changed. */
export const AS_WRITTEN: Cleared['say'] = (text) => text;

/**
 * Replaces the names of the case by neutral words and leaves out what its author has decided to leave out; or every
 * passage that looks like an identifier and has no decision, every identifier that is left, and every decision whose
 * passage is not there any more.
 */
export function clearPassages(
  texts: readonly FreeText[],
  known: CaseKnown,
  decisions: readonly Decision[],
): Outcome<Cleared> {
  const used = new Set<Decision>();
  const problems: Problem[] = [];
  const telling = { breed: [] as Problem[], age: [] as Problem[], sex: [] as Problem[] };
  const neutralised = replacing(known.names);
  const said = new Map<string, string>();
  let replaced = 0;
  for (const { place, text, kind } of texts) {
    let lines = 0;
    const sentences = sentencesOf(text).map((sentence) => {
      // Signs alone say nothing.
      if (!/[\p{L}\p{N}]/u.test(sentence)) {
        lines += linesIn(sentence);
        return sentence;
      }
      const whole = folded(sentence);
      const at = (index: number) => further(place, lines + linesIn(sentence.slice(0, index)));
      const decided = decisions.find(({ passage }) => folded(passage) === whole);
      if (decided) used.add(decided);
      const neutral = kind === 'label' ? { text: sentence, names: [] } : neutralised(sentence);
      const isLeft = decided?.decision === 'leave out' && kind === 'prose';
      if (!isLeft && decided?.decision !== 'publish') {
        const doubts = [...doubtsIn(sentence, known), ...exactlyIn(sentence, known.patient)];
        // What has become a neutral word asks for no decision.
        const open = doubts.filter((one) => !neutral.names.some((name) => holds(name, one)));
        for (const doubt of open.slice(0, MOST_ASKED)) {
          problems.push(asked(at(doubt.index), doubt, whole));
        }
        for (const trait of TRAIT_WORDS) {
          const [first] = traitsIn(sentence, known.patient)[trait];
          if (first) telling[trait].push(told(at(first.index), first, whole));
        }
      }
      lines += linesIn(sentence);
      if (isLeft) return '';
      replaced += neutral.names.length;
      return neutral.text;
    });
    const cleared = sentences.join('');
    for (const leak of leaksIn(cleared, known.identifiers, known.own)) {
      problems.push(identified(place, leak.what, leak.around));
    }
    said.set(text, cleared);
  }
  for (const decision of decisions) {
    if (used.has(decision)) continue;
    problems.push({
      kind: 'a decision on no passage',
      ...decision.place,
      found: `a decision on "${quoted(decision.passage)}", which no public text says`,
      expected: 'each decision on a passage that is there, word for word',
      mend: 'Look at the passage as it is now, and decide anew or take the decision out.',
    });
  }
  return problems.length > 0 ? bad(...problems) : good({ say: saying(said), replaced, telling });
}

/** A text that nobody cleared stops the build: it may say anything. */
const saying =
  (said: ReadonlyMap<string, string>): Cleared['say'] =>
  (text) => {
    const cleared = said.get(text);
    if (cleared === undefined) {
      throw new Error(
        'A text is bound for the public that is not among the free texts of its case.',
      );
    }
    return cleared;
  };

/** One decision is on all of a sentence: more of it need not be told. Not a clinical number. */
const MOST_ASKED = 10;

/** The paragraphs of a text with the line on which each begins, from 1: a number or a name may go over two lines. */
export function paragraphsOf(text: string): { readonly text: string; readonly line: number }[] {
  const paragraphs: { lines: string[]; line: number }[] = [];
  let open: string[] | null = null;
  text.split('\n').forEach((line, index) => {
    if (line.trim() === '') open = null;
    else if (open) open.push(line);
    else {
      open = [line];
      paragraphs.push({ lines: open, line: index + 1 });
    }
  });
  return paragraphs.map(({ lines, line }) => ({ text: lines.join('\n'), line }));
}

/** A text whose paragraphs were cleared one by one. */
export const clearedParagraphs = (text: string, say: Cleared['say']): string =>
  paragraphsOf(text)
    .map((paragraph) => say(paragraph.text))
    .join('\n\n');

/** The line of a place, further on in its text; a field of a record has its own place and keeps it. */
const further = (place: Place, lines: number): Place =>
  place.field !== undefined || place.line === undefined
    ? place
    : { ...place, line: place.line + lines };

const linesIn = (text: string): number => text.split('\n').length - 1;

/** Sentences with the space that follows each, so that together they are the text. */
const sentencesOf = (text: string): string[] => text.split(SENTENCE_END);

/** The stop of a title, or of another short word, ends no sentence; a heading and a point of a list begin one. */
const SENTENCE_END = new RegExp(
  `(?=\\S)(?<=[.!?]\\s+)(?<!(?:${TITLES}|No|vs|e\\.g|i\\.e)\\.\\s+)|(?<=\\n)(?=[ \\t]*(?:[-*+#>]|\\d+[.)])[ \\t#])`,
  'u',
);

const folded = (text: string): string => text.trim().replace(/\s+/gu, ' ');

/** A sentence is quoted whole, as its author decides on it word for word; what is longer is none. Not a clinical number. */
const MOST_QUOTED = 600;

const quoted = (text: string): string => shortened(folded(text), MOST_QUOTED);

const asked = (place: Place, { what, text }: Doubt, sentence: string): Problem => ({
  kind: 'a passage that may lead to somebody',
  ...place,
  found: `"${quoted(text)}", which looks like ${what}, in "${quoted(sentence)}"`,
  expected: 'nothing in public that may lead to a person, a place or a day',
  mend: 'Reword it, or decide in case.yaml under "public passages": the passage word for word, and "decision: leave out", or "decision: publish" with "because:".',
});

const told = (place: Place, { what, text }: Doubt, sentence: string): Problem => ({
  kind: 'a passage that may lead to somebody',
  ...place,
  found: `"${quoted(text)}", which tells ${what}, in "${quoted(sentence)}"`,
  expected: `no word of ${what}: too few published cases tell the same of their patients`,
  mend: 'Reword it, or decide in case.yaml under "public passages", as on any passage that may lead to somebody.',
});

const identified = (place: Place, what: string, around: string): Problem => ({
  kind: 'a passage that may lead to somebody',
  ...place,
  found: `${what} in "${quoted(around)}"`,
  expected: 'no identifier of the case in a text for the public',
  mend: 'Reword it; no decision can publish it. Whole names within sentences are replaced, parts of names and names in titles are not.',
});

/** A form of address before a name: "Mrs. the owner" would be no sentence, so the name stays and is refused. */
const ADDRESSED = `(?<!(?:${TITLES})\\.?\\s)`;

interface Replaced {
  /** Where the name stood in the sentence. */
  readonly from: number;
  readonly to: number;
}

const holds = ({ from, to }: Replaced, { index, text }: Doubt): boolean =>
  from <= index && index + text.length <= to;

interface Neutral {
  readonly text: string;
  readonly names: readonly Replaced[];
}

/** What puts the neutral word in place of each name in a sentence. */
function replacing(known: readonly KnownName[]): (sentence: string) => Neutral {
  if (known.length === 0) return (sentence) => ({ text: sentence, names: [] });
  const neutralOf = new Map(known.map(({ name, neutral }) => [name, neutral]));
  const longestFirst = [...neutralOf.keys()].sort((a, b) => b.length - a.length);
  const any = longestFirst.map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|');
  const whole = new RegExp(`${ADDRESSED}(?<![\\p{L}\\p{N}])(?:${any})(?![\\p{L}\\p{N}])`, 'gu');
  return (sentence) => {
    const names: Replaced[] = [];
    const text = sentence.replace(whole, (name, at: number) => {
      names.push({ from: at, to: at + name.length });
      const neutral = neutralOf.get(name) as string;
      const begins = /(?:^|[.!?\n])[\s#>*_"“¿¡-]*$/u.test(sentence.slice(Math.max(0, at - 20), at));
      return begins ? neutral.charAt(0).toUpperCase() + neutral.slice(1) : neutral;
    });
    return { text, names };
  };
}
