import { Document, isCollection, stringify } from 'yaml';
import { proposeForm } from '../record/monitor-table/propose-form.js';
import type { WrittenForm } from '../record/monitor-table/table-form.js';
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
  const name = read.values.name ?? 'our monitor';
  const proposed = proposeForm(bytes.value, file, name);
  if (!proposed.ok) return showProblems(proposed.problems, terminal);
  const { form, leftOver, doubts } = proposed.value;
  terminal.out(
    '# For clinic.yaml. Check each line against the monitor before a case relies on it.',
  );
  for (const doubt of doubts) terminal.out(`# Guessed: ${doubt}.`);
  if (leftOver.length > 0) terminal.out(`# Columns not taken: ${few(leftOver)}.`);
  terminal.out(formText(form));
  const named = stringify({ vitals: fileNameOf(file), table: name }, FLOW).trim();
  terminal.out(`# In case.yaml: monitor: ${named}`);
  return 0;
};

/** A form as lines of the clinic's file; widths read best beside each other. */
function formText(form: WrittenForm): string {
  const document = new Document({ 'monitor tables': [form] });
  const widths = document.getIn(['monitor tables', 0, 'column widths'], true);
  if (isCollection(widths)) widths.flow = true;
  return document.toString({ lineWidth: 0, flowCollectionPadding: false }).trimEnd();
}

/** Titles that anybody reads. Not a clinical number. */
const MOST_TITLES = 20;

const few = (titles: readonly string[]): string => {
  const more = titles.length - MOST_TITLES;
  return `${titles.slice(0, MOST_TITLES).join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
};

const FLOW = { collectionStyle: 'flow', lineWidth: 0 } as const;

const fileNameOf = (path: string) => path.split(/[/\\]/).at(-1);
