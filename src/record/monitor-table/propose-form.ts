import { bad, good, type Outcome } from '../problem.js';
import type { Line } from '../vitals-rows.js';
import { isNewestFirst, type SampleTime, sampleClock } from './sample-clock.js';
import { type SampleColumn, sampleColumns } from './sample-columns.js';
import { sampleLines } from './sample-lines.js';
import type { ENCODINGS, WrittenForm } from './table-form.js';
import { decoded } from './table-text.js';
import { columnsOf, readingsOf } from './told-form.js';

/** How a sample of a monitor's table is to be read; whatever was guessed is a doubt for the reader. */
export interface Proposal {
  readonly form: WrittenForm;
  /** Titles of columns that are not taken. */
  readonly leftOver: readonly string[];
  readonly doubts: readonly string[];
}

const BY_HAND = 'Write the form by hand, see "A monitor\'s own table" in the guide.';

/**
 * Proposes how a table is to be read, from a sample of it.
 * @param name what the form is to be called
 */
export function proposeForm(bytes: Uint8Array, file: string, name: string): Outcome<Proposal> {
  const none = (found: string, mend: string) =>
    bad({
      kind: 'a table without a form that can be proposed',
      file,
      found,
      expected:
        'a table with commas, semicolons, tabs, bars or fixed widths between columns, a line of titles, a time and readings',
      mend,
    });
  const encoding = encodingOf(bytes);
  const text = decoded(bytes, encoding, file);
  const lines = text.ok ? sampleLines(text.value) : null;
  if (!lines) {
    return none('no line of titles with readings below it', 'Export the table with its titles.');
  }
  const columns = sampleColumns(lines);
  const cells = (index: number) => (columns[index] as SampleColumn).cells;
  const clock = sampleClock(
    columns.map(({ title }) => title),
    cells,
  );
  if (!clock) return none('no column that reads as a time', `Export it with its time. ${BY_HAND}`);
  const others = columns.filter(
    ({ index }) => index !== clock.time.index && index !== clock.day?.index,
  );
  const doubts = [clock.day, clock.time].flatMap((one) => one?.doubt ?? []);
  if (encoding === 'windows-1252') {
    doubts.push(`the encoding is not told; ${encoding} is guessed: see that the titles read well`);
  }
  if (lines.cut['column widths']) {
    doubts.push(
      'the widths of columns are those of this sample: see that the widest value has room',
    );
  }
  const told = columnsOf(others, doubts) ?? readingsOf(others, doubts);
  if (!told) {
    const titles = others.flatMap(({ title }) => (title === '' ? [] : [title]));
    const found = `no column that was understood (${titles.join(', ')})`;
    return none(found, doubts.length > 0 ? `${sentence(doubts)} ${BY_HAND}` : BY_HAND);
  }
  const timed = ({ index, written }: SampleTime) => ({
    column: (columns[index] as SampleColumn).named,
    written,
  });
  const [day, time] = [clock.day && timed(clock.day), timed(clock.time)];
  const isNumbered =
    lines.cut['column widths'] === undefined &&
    [day?.column, time.column, ...told.named].some((one) => typeof one === 'number');
  const form: WrittenForm = {
    name,
    ...(encoding !== 'utf-8' && { encoding }),
    ...lines.cut,
    ...(told.comma && { decimal: 'comma' }),
    ...(lines.titles.line !== 1 && { 'titles on line': lines.titles.line }),
    ...(lines.below.length > 0 && { 'readings from line': (lines.body[0] as Line).line }),
    ...(isNumbered && { 'columns in all': lines.titles.cells.length }),
    ...(isNewestFirst(clock, cells) && { 'newest first': 'yes' }),
    ...(day && { day }),
    time,
    ...told.form,
  };
  // What is guessed of a column is guessed of each reading in its cells.
  return good({ form, leftOver: told.leftOver, doubts: [...new Set(doubts)] });
}

const sentence = (parts: readonly string[]): string =>
  parts.map((part) => `${part.slice(0, 1).toUpperCase()}${part.slice(1)}.`).join(' ');

/** UTF-16 by its mark, or by the zeros that it has beside every letter of the West. */
function encodingOf(bytes: Uint8Array): (typeof ENCODINGS)[number] {
  const [a, b] = bytes;
  const zeros = (odd: 0 | 1) =>
    bytes.subarray(0, 1000).filter((byte, at) => byte === 0 && at % 2 === odd).length;
  if ((a === 0xff && b === 0xfe) || zeros(1) > 8 * (zeros(0) + 1)) return 'utf-16le';
  if ((a === 0xfe && b === 0xff) || zeros(0) > 8 * (zeros(1) + 1)) return 'utf-16be';
  return decoded(bytes, 'utf-8', '').ok ? 'utf-8' : 'windows-1252';
}
