import type { Said } from '../../words/handout.js';
import type { Place, Press } from './press.js';
import type { Tag } from './tags.js';
import { type Passage, printPassage, setPassage } from './text.js';
import type { Voice } from './type-scale.js';

/** A short heading that shares its line with the text that it heads. */
export interface RunIn {
  readonly height: number;
  readonly print: (place: Place, into: { readonly heading: Into; readonly text: Into }) => void;
}

interface Into {
  readonly tag: Tag;
  readonly type: string;
}

/**
 * Sets a heading and its sentences as one passage; null where the heading would not stand apart from the text: it does not
 * fit its line, or the text begins in bold as well.
 */
export function setRunIn(
  press: Press,
  { title, said }: { readonly title: string; readonly said: readonly Said[] },
  voice: Voice,
  width: number,
): RunIn | null {
  const begins = said[0]?.runs[0];
  if (!begins || begins.strong) return null;
  const runs = runsOf(title, said);
  const passage = setPassage(runs, voice, width);
  const [first, ...rest] = passage.lines;
  const [heading, ...beside] = first?.fragments ?? [];
  if (!heading?.text.startsWith(title)) return null;
  const part = (lines: Passage['lines']): Passage => ({ ...passage, lines });
  return {
    height: passage.height,
    print: ({ x, y }, into) => {
      const head = part([{ fragments: [heading], width: heading.width }]);
      printPassage(press, head, { place: { x, y }, into: into.heading });
      const width = beside.reduce((sum, fragment) => sum + fragment.width, 0);
      const place = { x: x + heading.width, y };
      if (beside.length > 0) {
        printPassage(press, part([{ fragments: beside, width }]), { place, into: into.text });
      }
      const under = { x, y: y + voice.leading };
      if (rest.length > 0) printPassage(press, part(rest), { place: under, into: into.text });
    },
  };
}

/** The runs of what has been set before: a sheet is set a dozen times, and passages are kept by their runs. */
const joined = new WeakMap<Said, ReturnType<typeof join>>();

function runsOf(title: string, said: readonly Said[]) {
  const [first] = said as [Said];
  const before = joined.get(first);
  if (before) return before;
  const made = join(title, said);
  joined.set(first, made);
  return made;
}

const join = (title: string, said: readonly Said[]) => [
  { text: `${title}\u00a0 `, strong: true as const },
  ...said.flatMap(({ runs }, i) => (i === 0 ? runs : [{ text: ' ' }, ...runs])),
];
