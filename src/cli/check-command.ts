import { dosePerKilogram } from '../facts/dose-per-kilogram.js';
import { claimsOf } from '../publish/claims.js';
import { clearAll } from '../publish/clear-case.js';
import { load } from '../publish/load.js';
import type { LoadedCase } from '../publish/load-case.js';
import { otherPatients } from '../publish/other-patients.js';
import { readingOf } from '../publish/reading.js';
import { stillToCome } from '../publish/still-to-come.js';
import { date } from '../record/moments.js';
import type { Problem, Warning } from '../record/problem.js';
import { roundTo } from '../units/round.js';
import { type Command, diskFor, readWords, todayIn } from './command.js';
import { problemsJson } from './problem-json.js';
import { endProgress, showProblems, showWarnings, unanswered } from './terminal.js';

export const checkCommand: Command = async (words, terminal) => {
  const read = readWords(
    'check',
    words,
    { strict: { type: 'boolean' }, json: { type: 'boolean' }, on: { type: 'string' } },
    { least: 0, most: 1 },
    terminal,
  );
  if (!read) return 2;
  const { json = false, on } = read.values;
  if (on !== undefined && !date('the day').safeParse(on).success) {
    terminal.err(
      `thrice check: --on "${on}" cannot be read; write a day of the calendar as YYYY-MM-DD.`,
    );
    return 2;
  }
  const loaded = load(read.positionals[0] ?? '.', diskFor(terminal));
  if (!loaded.ok) {
    if (!json) return showProblems(loaded.problems, terminal);
    terminal.out(problemsJson(loaded.problems));
    return 1;
  }
  const { cases, clinic, content, failed, clashes } = loaded.value;
  const today = on ?? todayIn(clinic['time zone']);
  const told = cases.map((one) => ({ one, reading: readingOf(one, content) }));
  const cleared = clearAll(loaded.value);
  const strangers = otherPatients(cases.map(claimsOf));
  const asked = new Map<LoadedCase, readonly Warning[]>(
    told.map(({ one, reading }) => [
      one,
      [
        ...one.facts.warnings,
        ...reading.warnings,
        ...strangers.filter(({ file }) => file === one.file),
        ...stillToCome([one], today),
      ],
    ]),
  );
  const warnings = [...asked.values()].flat();
  const undecided = [...cleared.values()].flatMap((words) => (words.ok ? [] : words.problems));
  const unseen = new Map<string, readonly Problem[]>();
  for (const { one, reading } of told) {
    unseen.set(one.name, [...(await photoProblems(one)), ...reading.unprintable]);
  }
  const problems = [
    ...failed.flatMap((one) => one.problems),
    ...clashes,
    ...[...unseen.values()].flat(),
    ...undecided,
  ];
  const wrong =
    problems.length > 0 || (read.values.strict === true && unanswered(warnings).length > 0);
  endProgress(terminal);
  if (json) {
    terminal.out(problemsJson(problems, warnings));
    return wrong ? 1 : 0;
  }
  const sound = cases.filter(
    ({ name, file }) =>
      (cleared.get(name)?.ok ?? true) &&
      unseen.get(name)?.length === 0 &&
      !clashes.some((clash) => clash.file === file),
  );
  const asks = (one: LoadedCase) => unanswered(asked.get(one) ?? []).length > 0;
  const [asking, quiet] = [sound.filter(asks), sound.filter((one) => !asks(one))];
  if (quiet.length > 0) terminal.out(`No problem in ${named(quiet)}.`);
  if (asking.length > 0) terminal.out(`No problem, but warnings to answer, in ${named(asking)}.`);
  for (const line of cases.flatMap(uncheckedInClinic)) terminal.out(line);
  for (const { reading } of told) terminal.out(reading.summary);
  showWarnings(warnings, terminal);
  if (problems.length > 0) return showProblems(problems, terminal);
  return wrong ? 1 : 0;
};

/** What is wrong with the photos of a case; a case without any does not wait for what reads pictures. */
async function photoProblems({ photos }: LoadedCase): Promise<readonly Problem[]> {
  if (photos.length === 0) return [];
  const { decodePhotos } = await import('../publish/photo.js');
  const decoded = await decodePhotos(photos);
  return decoded.ok ? [] : decoded.problems;
}

const named = (cases: readonly LoadedCase[]): string => cases.map(({ name }) => name).join(', ');

/** Doses of the anesthesia that nothing was compared with: silence would pass for a check. */
function uncheckedInClinic({ name, facts }: LoadedCase): string[] {
  const doses = facts.anesthesia.drugs.filter(({ checked }) => checked.value === null);
  if (doses.length === 0) return [];
  const shown = doses.map((given) => {
    const { value, unit } = dosePerKilogram(given);
    return `${given.drug} ${roundTo(value, 3)} ${unit}/kg ${given.route}`;
  });
  return [`${name}, given in the clinic, not checked: ${shown.join(', ')}.`];
}
