import { loadWords } from '../publish/collection.js';
import { readText } from '../publish/effects.js';
import { clinicOf } from '../publish/find-cases.js';
import { checkFiles, nameIsFree, newCaseFiles, writeCaseFolder } from '../publish/new-case.js';
import {
  type CaseInterview,
  caseInterview,
  type Interview,
  NOTHING_TOLD,
  type Question,
} from '../record/interview.js';
import type { Problem } from '../record/problem.js';
import { readClinic } from '../record/read-case.js';
import { type Command, diskFor, readWords } from './command.js';
import { reasonText, showProblems, type Terminal } from './terminal.js';

export const newCommand: Command = async (words, terminal) => {
  const read = readWords('new', words, {}, { least: 1, most: 1 }, terminal);
  if (!read) return 2;
  const folder = read.positionals[0] as string;
  const effects = diskFor({ ...terminal, progress: null });
  const free = nameIsFree(folder);
  if (!free.ok) return showProblems(free.problems, terminal);
  const clinicFile = clinicOf(folder, effects);
  if (!clinicFile.ok) return showProblems(clinicFile.problems, terminal);
  const clinicText = readText(effects, clinicFile.value);
  if (!clinicText.ok) return showProblems(clinicText.problems, terminal);
  const said = loadWords(effects);
  if (!said.ok) return showProblems(said.problems, terminal);
  const { keys } = said.value.content;
  const clinic = readClinic(clinicText.value, clinicFile.value, keys);
  if (!clinic.ok) return showProblems(clinic.problems, terminal);

  terminal.out('Enter skips what is optional and ends a list. Nothing is written before the end.');
  const interview = caseInterview(keys);
  let told: Interview = NOTHING_TOLD;
  for (;;) {
    const heard = await askAll(interview, told, terminal);
    if (!heard) {
      terminal.err('\nThe answers ended before the case was complete. Nothing was written.');
      return 1;
    }
    const files = newCaseFiles(folder, interview.record(heard));
    const problems = checkFiles(folder, files, clinic.value.value, keys, effects);
    if (problems.length === 0) {
      const written = writeCaseFolder(folder, files);
      if (!written.ok) return showProblems(written.problems, terminal);
      terminal.out(`\nWrote ${folder}: ${Object.keys(files).join(', ')}.`);
      terminal.out(
        'Add what the monitor displayed to vitals.csv, then run "thrice check" on the folder.',
      );
      return 0;
    }
    const reopened = interview.reopen(heard, problems);
    if (!reopened) return showProblems(problems, terminal);
    terminal.out('\nSome answers do not fit together.');
    tell(problems, terminal);
    told = reopened;
  }
};

/** Asks until everything is told; null where the answers end before. */
async function askAll(
  interview: CaseInterview,
  from: Interview,
  terminal: Terminal,
): Promise<Interview | null> {
  let told = from;
  for (;;) {
    const question = interview.next(told);
    if (!question) return told;
    const line = await terminal.ask(promptFor(question));
    if (line === null) return null;
    const taken = interview.take(told, question, line);
    tell(taken.problems, terminal);
    told = taken.interview;
  }
}

function promptFor({ field, meaning, words, empty }: Question): string {
  const choice = words.length > 0 ? `  one of: ${words.join('; ')}` : '';
  const way = empty === null ? '' : empty.kind === 'skip' ? '  Enter: skip' : '  Enter: no more';
  return [
    '',
    `${field}${meaning === '' ? '' : ` - ${meaning}`}`,
    ...[choice, way].filter((line) => line !== ''),
    '> ',
  ].join('\n');
}

function tell(problems: readonly Problem[], terminal: Terminal): void {
  for (const problem of problems) terminal.out(`${problem.field}\n${reasonText(problem)}`);
}
