import { isKnown, type Stated } from '../facts/fact.js';
import { load } from '../publish/load.js';
import type { Language } from '../words/language.js';
import { isReason, sayReason, withSentences } from '../words/reason.js';
import { type Command, diskFor, readWords } from './command.js';
import { endProgress, showProblems } from './terminal.js';
import { toldCase } from './told-case.js';

export const factsCommand: Command = async (words, terminal) => {
  const read = readWords(
    'facts',
    words,
    { json: { type: 'boolean' }, all: { type: 'boolean' } },
    { least: 1, most: 1 },
    terminal,
  );
  if (!read) return 2;
  const loaded = load(read.positionals[0] as string, diskFor(terminal));
  if (!loaded.ok) return showProblems(loaded.problems, terminal);
  endProgress(terminal);
  const { cases, failed, clashes, content } = loaded.value;
  const english = content.languages.get('en') as Language;
  const all = cases.map(({ facts }) => facts);
  if (all.length > 0) {
    terminal.out(
      read.values.json
        ? JSON.stringify(withSentences(all.length === 1 ? all[0] : all, english), null, 2)
        : read.values.all
          ? all.flatMap((facts) => factLines(facts, english)).join('\n')
          : all.map((facts) => toldCase(facts).join('\n')).join('\n\n\n'),
    );
  }
  const problems = [...failed.flatMap((unread) => unread.problems), ...clashes];
  return problems.length === 0 ? 0 : showProblems(problems, terminal);
};

/** One line for each fact: its path, its value, how it came about and what it rests on. */
function factLines(tree: unknown, language: Language, path = ''): string[] {
  if (isStated(tree)) {
    return isKnown(tree)
      ? [`${path}: ${JSON.stringify(tree.value)}  [${tree.how}] ${tree.from.join(', ')}`.trimEnd()]
      : [`${path}: not known. ${tree.why}`];
  }
  if (typeof tree !== 'object' || tree === null) return [`${path}: ${JSON.stringify(tree)}`];
  if (Array.isArray(tree) && tree.length === 0) return [`${path}: none`];
  if (isReason(tree)) return [`${path}: ${JSON.stringify(sayReason(tree, language))}`];
  return Object.entries(tree).flatMap(([key, part]) =>
    factLines(part, language, path ? `${path}.${key}` : key),
  );
}

/** A reading that was kept apart also has a value and a reason; only a fact says what it rests on. */
function isStated(tree: unknown): tree is Stated<unknown> {
  if (typeof tree !== 'object' || tree === null || !('value' in tree)) return false;
  return 'from' in tree || ('why' in tree && tree.value === null);
}
