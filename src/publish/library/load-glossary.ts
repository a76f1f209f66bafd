import { join } from 'node:path';
import { z } from 'zod';
import { bad, good, type Outcome, type Problem } from '../../record/problem.js';
import { text } from '../../record/words.js';
import { type Located, readYaml } from '../../record/yaml-file.js';
import type { GlossaryTerm } from '../../words/glossary.js';
import { type Effects, readText } from '../effects.js';

const schema = z.record(
  z.string(),
  z.strictObject({
    term: text('the term'),
    also: z.array(text('another word for it')).default([]),
    text: text('what it means, in a sentence or two'),
  }),
);

type Written = z.infer<typeof schema>;

/** The glossary of each language, in the order of its terms. Each language has the terms that English has. */
export function loadGlossary(
  content: string,
  languages: readonly string[],
  effects: Effects,
): Outcome<ReadonlyMap<string, readonly GlossaryTerm[]>> {
  const problems: Problem[] = [];
  const read = new Map<string, Located<Written>>();
  for (const tag of languages) {
    const file = join(content, tag, 'glossary.yaml');
    const written = readText(effects, file);
    const terms = written.ok ? readYaml(written.value, file, schema) : written;
    if (terms.ok) read.set(tag, terms.value);
    else problems.push(...terms.problems);
  }
  const english = read.get('en');
  if (problems.length > 0 || !english) return bad(...problems);
  for (const [tag, { value }] of read) {
    for (const key of Object.keys(english.value)) {
      if (key in value) continue;
      problems.push({
        kind: 'words that a language lacks',
        file: join(content, tag, 'glossary.yaml'),
        field: key,
        found: 'no term under this key',
        expected: `what ${english.where(key)} explains`,
        mend: 'Add the term in this language.',
      });
    }
  }
  if (problems.length > 0) return bad(...problems);
  return good(new Map([...read].map(([tag, terms]) => [tag, inOrder(tag, terms.value)])));
}

const inOrder = (tag: string, terms: Written): GlossaryTerm[] =>
  Object.entries(terms)
    .map(([key, term]) => ({ key, ...term }))
    .sort((a, b) => a.term.localeCompare(b.term, tag, { sensitivity: 'base' }));
