import { stringify } from 'yaml';
import { type ProposedForm, proposeForm } from '../record/monitor-table/propose-form.js';
import { type Command, diskFor, readWords } from './command.js';
import { showProblems } from './terminal.js';

export const tableCommand: Command = async (words, terminal) => {
  const read = readWords(
    'table',
    words,
    { name: { type: 'string' } },
    { least: 1, most: 1 },
    terminal,
  );
  if (!read) return 2;
  const file = read.positionals[0] as string;
  const bytes = diskFor(terminal).readBytes(file);
  if (!bytes.ok) return showProblems(bytes.problems, terminal);
  const form = proposeForm(bytes.value);
  if (!form || form.columns.length === 0 || !form.time) {
    const found = !form
      ? 'no table with titles and at least two columns'
      : !form.time
        ? 'no column that reads as a time'
        : `no column that was understood (${form.leftOver.join(', ')})`;
    return showProblems(
      [
        {
          kind: 'a table without a form that can be proposed',
          file,
          found,
          expected: "a monitor's table with a line of titles, a time and readings",
          mend: 'Export the table with its titles; or write the form by hand, see "A monitor\'s own table" in the guide.',
        },
      ],
      terminal,
    );
  }
  const name = read.values.name ?? 'our monitor';
  terminal.out(
    '# For clinic.yaml. Check each line against the monitor before a case relies on it.',
  );
  for (const doubt of form.doubts) terminal.out(`# Guessed: ${doubt}.`);
  if (form.leftOver.length > 0) {
    terminal.out(`# Columns not taken: ${form.leftOver.join(', ')}.`);
  }
  terminal.out(stringify({ 'monitor tables': [written(name, form)] }, { lineWidth: 0 }).trimEnd());
  terminal.out(`# In case.yaml: monitor: { vitals: ${fileNameOf(file)}, table: ${name} }`);
  return 0;
};

const fileNameOf = (path: string) => path.split(/[/\\]/).at(-1);

/** The form as the clinic's file writes it, without what goes without saying. */
function written(name: string, form: ProposedForm) {
  return {
    name,
    ...(form.encoding !== 'utf-8' && { encoding: form.encoding }),
    ...(form.separator !== 'comma' && { 'between columns': form.separator }),
    ...(form.decimal !== 'point' && { decimal: form.decimal }),
    ...(form.titlesOn !== 1 && { 'titles on line': form.titlesOn }),
    ...(form.readingsFrom !== null && { 'readings from line': form.readingsFrom }),
    ...(form.day && { day: form.day }),
    time: form.time,
    ...(form.missing.length > 0 && { missing: form.missing }),
    columns: form.columns,
  };
}
