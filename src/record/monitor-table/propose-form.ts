import { bad, good, type Outcome } from '../problem.js';
import type { Line } from '../vitals-rows.js';
import { namedChannel } from './named-channel.js';
import { partedColumn } from './parted-column.js';
import { isNewestFirst, type SampleTime, sampleClock } from './sample-clock.js';
import {
  hasDecimalComma,
  type SampleColumn,
  sampleColumns,
  takenColumns,
} from './sample-columns.js';
import { sampleLines } from './sample-lines.js';
import { sampleMarks } from './sample-marks.js';
import type { ENCODINGS, WrittenForm } from './table-form.js';
import { decoded } from './table-text.js';

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
        'a table with commas, semicolons, tabs or bars between columns, a line of titles, a time and readings',
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
  const taken = takenColumns(others.flatMap(partedColumn), doubts);
  const leftOver = others.filter(
    ({ index, title }) => title !== '' && !taken.some((one) => one.index === index),
  );
  const titles = leftOver.map(({ title }) => title);
  if (taken.length === 0) {
    const found = `no column that was understood (${titles.join(', ')})`;
    return others.some(isOfNames)
      ? none(
          `${found}, and names of measurements below each other`,
          'Export a column for each measurement: no form reads a line for each.',
        )
      : none(found, doubts.length > 0 ? `${sentence(doubts)} ${BY_HAND}` : BY_HAND);
  }
  const marks = sampleMarks(taken, doubts);
  const decimal = hasDecimalComma(taken) ? 'comma' : 'point';
  const timed = ({ index, written }: SampleTime) => ({
    column: (columns[index] as SampleColumn).named,
    written,
  });
  const [day, time] = [clock.day && timed(clock.day), timed(clock.time)];
  // A cell of several readings is one column of the form.
  const each = taken.filter(
    ({ index }, place) => place === taken.findIndex((one) => one.index === index),
  );
  const readings = each.map(({ index, named, channel: { channel }, written, readIn }) => {
    const missing = marks.within.get(index);
    return {
      ...(written === undefined ? { channel } : { written }),
      column: named,
      unit: readIn,
      ...(missing && { missing: [...missing] }),
    };
  });
  const isNumbered = [day, time, ...readings].some((one) => typeof one?.column === 'number');
  const form: WrittenForm = {
    name,
    ...(encoding !== 'utf-8' && { encoding }),
    ...(lines.separator !== 'comma' && { 'between columns': lines.separator }),
    ...(decimal !== 'point' && { decimal }),
    ...(lines.titles.line !== 1 && { 'titles on line': lines.titles.line }),
    ...(lines.below.length > 0 && { 'readings from line': (lines.body[0] as Line).line }),
    ...(isNumbered && { 'columns in all': lines.titles.cells.length }),
    ...(isNewestFirst(clock, cells) && { 'newest first': 'yes' }),
    ...(day && { day }),
    time,
    ...(marks.everywhere.length > 0 && { missing: [...marks.everywhere] }),
    columns: readings,
  };
  // What is guessed of a column is guessed of each reading in its cells.
  return good({ form, leftOver: titles, doubts: [...new Set(doubts)] });
}

/** Whether a column holds the names of measurements, one a line. */
const isOfNames = ({ cells }: SampleColumn): boolean =>
  cells.filter((cell) => namedChannel(cell) !== null).length * 2 > cells.length;

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
