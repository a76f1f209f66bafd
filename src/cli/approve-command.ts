import { type CaseFacts, goesHome } from '../facts/case-facts.js';
import { earlierSheet } from '../facts/standing.js';
import { approve, writeApprovals } from '../publish/approval.js';
import { load } from '../publish/load.js';
import { date } from '../record/moments.js';
import { readText } from '../words/handout-text.js';
import { ownersLanguage } from '../words/language.js';
import { changesBetween } from '../words/owner/changes.js';
import { type Command, diskFor, readWords, todayIn } from './command.js';
import { endProgress, showProblems, showWarnings, unanswered } from './terminal.js';
import { toldCase } from './told-case.js';

export const approveCommand: Command = async (words, terminal) => {
  const read = readWords(
    'approve',
    words,
    { by: { type: 'string' }, on: { type: 'string' } },
    { least: 1, most: 1 },
    terminal,
  );
  if (!read) return 2;
  const misuse = (sentence: string): 2 => {
    terminal.err(`thrice approve: ${sentence}`);
    return 2;
  };
  const by = read.values.by?.trim();
  if (!by) return misuse('--by is missing; name the veterinarian, like --by "Dr. Ada Birch".');
  const given = read.values.on;
  if (given !== undefined && !date('the day').safeParse(given).success) {
    return misuse(`--on "${given}" cannot be read; write a day of the calendar as YYYY-MM-DD.`);
  }

  const path = read.positionals[0] as string;
  const loaded = load(path, diskFor(terminal));
  if (!loaded.ok) return showProblems(loaded.problems, terminal);
  const { cases, failed, clashes, clinic, content } = loaded.value;
  const problems = [...failed.flatMap((unread) => unread.problems), ...clashes];
  if (problems.length > 0) return showProblems(problems, terminal);
  const [one, ...more] = cases;
  endProgress(terminal);
  if (!one || more.length > 0) {
    return misuse(`"${path}" holds ${cases.length} cases; approve one case folder at a time.`);
  }
  showWarnings(one.facts.warnings, terminal);
  if (unanswered(one.facts.warnings).length > 0) {
    terminal.err(
      'Mend the record, or answer each warning in it under its number, before you approve.',
    );
    return 1;
  }
  const { sheet, teaching } = one.standing;
  const last = sheet.approvals.at(-1);
  if (last && sheet.approved && teaching) {
    terminal.out(
      `${one.name} is approved as it stands: revision ${last.revision}, by ${last.by} on ${last.on}.`,
    );
    if (last.by !== by) {
      terminal.out(`Nothing was written: ${by} is not added, the approval by ${last.by} stands.`);
    }
    return 0;
  }
  // The clinic's own day: only `check` asks the clock beside this, and --on takes its place.
  const on = given ?? todayIn(clinic['time zone']);
  const language = ownersLanguage(content.languages, one.facts.identity);
  const approvals = approve(one, { by, on }, language);
  if (!approvals.ok) return showProblems(approvals.problems, terminal);
  const written = writeApprovals(one.file, approvals.value);
  if (!written.ok) return showProblems(written.problems, terminal);
  const newest = approvals.value.at(-1);
  if (!newest) throw new Error('an approval has been added just above');
  for (const line of toldCase(one.facts)) terminal.out(line);
  terminal.out('');
  terminal.out(`Approved ${one.name}, revision ${newest.revision}, by ${by} on ${on}.`);
  terminal.out(`Without the draft mark from the next build on: ${covered(one.facts)}.`);
  const { surgeon, anesthetist, others } = one.facts.identity;
  const team = [surgeon, ...(anesthetist === null ? [] : [anesthetist]), ...others];
  if (!team.includes(by)) {
    const names = new Intl.ListFormat('en').format(team);
    terminal.out(`${by} is not in the team that the record names: ${names}.`);
  }
  const earlier = earlierSheet({ approved: true, approvals: approvals.value });
  // Nobody holds a sheet that could name what is new.
  if (earlier && goesHome(one.facts)) {
    terminal.out(`The sheet names what is new since ${earlier.on}:`);
    for (const change of changesBetween(earlier.statements, newest.statements, language)) {
      terminal.out(`  ${readText(change)}`);
    }
  }
  terminal.out('Run "thrice build" to print it without the draft mark.');
  return 0;
};

/** The documents that an approval takes the draft mark off: the sheet, where there is one, and what the owner's consent allows. */
function covered(facts: CaseFacts): string {
  const { consent } = facts;
  const documents = [
    ...(goesHome(facts)
      ? ['the discharge sheet (page, PDF, calendar)', 'the anesthesia chart']
      : []),
    ...(consent.teaching.allows ? ['the teaching page with its answers'] : []),
    ...(consent.record.allows ? ['the anonymized record'] : []),
  ];
  return documents.length === 0 ? 'nothing, as nothing is published' : documents.join(', ');
}
