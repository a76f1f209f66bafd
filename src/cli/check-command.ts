import { clearAll } from '../publish/build.js';
import { load } from '../publish/load.js';
import type { LoadedCase } from '../publish/load-case.js';
import { readingOf } from '../publish/reading.js';
import { type Command, diskFor, readWords } from './command.js';
import { endProgress, showProblems, showWarnings, unanswered } from './terminal.js';

export const checkCommand: Command = async (words, terminal) => {
  const read = readWords(
    'check',
    words,
    { strict: { type: 'boolean' } },
    { least: 0, most: 1 },
    terminal,
  );
  if (!read) return 2;
  const loaded = load(read.positionals[0] ?? '.', diskFor(terminal));
  if (!loaded.ok) return showProblems(loaded.problems, terminal);
  const { cases, content, failed } = loaded.value;
  const readings = cases.map((one) => readingOf(one, content));
  const cleared = clearAll(loaded.value);
  endProgress(terminal);
  const sound = cases.filter(({ name }) => cleared.get(name)?.ok ?? true);
  if (sound.length > 0) {
    terminal.out(`No problem in ${sound.map(({ name }) => name).join(', ')}.`);
  }
  for (const line of cases.flatMap(uncheckedDoses)) terminal.out(line);
  for (const { summary } of readings) terminal.out(summary);
  const warnings = [
    ...cases.flatMap(({ facts }) => facts.warnings),
    ...readings.flatMap((reading) => reading.warnings),
  ];
  showWarnings(warnings, terminal);
  const undecided = [...cleared.values()].flatMap((words) => (words.ok ? [] : words.problems));
  const problems = [...failed.flatMap((one) => one.problems), ...undecided];
  if (problems.length > 0) return showProblems(problems, terminal);
  return read.values.strict && unanswered(warnings).length > 0 ? 1 : 0;
};

/** Medicines whose doses nothing was compared with: silence would pass for a check. */
function uncheckedDoses({ name, facts }: LoadedCase): string[] {
  return facts.home.medicines.flatMap(({ drug, checked }) =>
    checked.value === null ? [`${name}, ${drug}. ${checked.why}`] : [],
  );
}
