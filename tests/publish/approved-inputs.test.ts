import { expect, it } from 'vitest';
import type { HomeCase } from '../../src/facts/case-facts.js';
import { statedFacts } from '../../src/facts/digest.js';
import { NEVER_APPROVED } from '../../src/facts/standing.js';
import { type PublicFacts, publicFacts } from '../../src/privacy/public-facts.js';
import { filledChart } from '../../src/words/anesthesia-chart.js';
import type { Figure } from '../../src/words/handout.js';
import type { Language } from '../../src/words/language.js';
import { calendarEntries } from '../../src/words/owner/calendar-entries.js';
import { ownerSheet } from '../../src/words/owner/owner-sheet.js';
import { anesthesiaRecord, teachingPage } from '../../src/words/teaching/documents.js';
import type { CaseFigures } from '../../src/words/teaching/learner-section.js';
import { demo, OPEN_VEIL } from '../facts/demo.js';

/** The same facts, noting the path of each value that is taken from them. */
function watched<T>(facts: T, read: Set<string>): T {
  const known = new Map<string, unknown>();
  const watch = (part: unknown, path: string): unknown => {
    // What is not there enters the digest once it is: the digest takes all that there is.
    if (typeof part === 'function' || part === undefined) return part;
    if (typeof part !== 'object' || part === null || ArrayBuffer.isView(part)) {
      read.add(path);
      return part;
    }
    if (!known.has(path)) {
      known.set(
        path,
        new Proxy(part, {
          get: (target, key) =>
            typeof key === 'symbol'
              ? Reflect.get(target, key)
              : watch(Reflect.get(target, key), path === '' ? key : `${path}.${key}`),
        }),
      );
    }
    return known.get(path);
  };
  // Facts are frozen, and a frozen part may not be handed out as another.
  return watch(structuredClone(facts), '') as T;
}

/** What is read of the facts but is not said: where a value stands and how it came about, lengths of lists, and how a page is laid out. */
const UNSAID =
  /(^|\.)(length|how|line|file)$|\.from\.\d+$|^identity\.clinic\.(paper|clock)$|^identity\.owner\.largeType$|^consent\.|^published\.address$/;

const NO_FIGURE = {
  kind: 'drawing',
  drawing: { width: 1, height: 1, marks: [] },
} as unknown as Figure;
const NO_FIGURES: CaseFigures = {
  vitals: null,
  heart: NO_FIGURE,
  strips: [],
  exercises: {},
  photos: [],
};
const shared = (facts: HomeCase) => publicFacts(facts, OPEN_VEIL) as PublicFacts;
const english = demo.content.languages.get('en') as Language;
const DOCUMENTS: Readonly<Record<string, (facts: HomeCase) => unknown>> = {
  "the owner's sheet": (facts) => ownerSheet(facts, english, [], NEVER_APPROVED),
  'the calendar': (facts) => calendarEntries(facts, english),
  'the anesthesia chart': (facts) => filledChart(facts, english, true),
  'the teaching page': (facts) => teachingPage(shared(facts), '', english, NO_FIGURES, 'A4'),
  'the anonymized record': (facts) => anesthesiaRecord(shared(facts), english, NO_FIGURES, 'A4'),
  'the pack': (facts) => JSON.stringify(shared(facts)),
};

it.each(
  demo.cases.flatMap(({ name, facts }) =>
    Object.keys(DOCUMENTS).map((what) => [what, name, facts] as const),
  ),
)('%s of %s is approved with all that it prints', (what, _, facts) => {
  const stated = new Set<string>();
  statedFacts(watched(facts, stated));
  const printed = new Set<string>();
  DOCUMENTS[what]?.(watched(facts, printed));
  expect(printed.size).toBeGreaterThan(5);
  const unsaid = (path: string) => path.endsWith('.written') || !stated.has(path);
  expect([...printed].filter((path) => unsaid(path) && !UNSAID.test(path))).toEqual([]);
});
