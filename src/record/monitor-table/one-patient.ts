import type { Problem } from '../problem.js';
import { describe } from '../refusal.js';
import type { Line } from '../vitals-rows.js';
import type { CellPlace } from './cell-place.js';

const NUMBERED = String.raw`[\W_]*(?:id|name|nombre|nom|no|nr|num\w*|núm\w*|code)?[\W_]*`;
/** What tells patients apart: their names, and the places at which they lie. English, Spanish, German and French; common practice. */
const PATIENT = 'patient|paciente|animal|tier|mascota|pet';
const PLACE = 'bed|bett|cama|lit|room|raum|zimmer|sala|box|cage|kennel|jaula';

/** A title that says so and nothing else. */
const TITLE = new RegExp(String.raw`^[\W_]*(?:${PATIENT}|(${PLACE}))${NUMBERED}$`, 'i');
/** A line such as `Patient: Larch` or `Patient;Larch`. */
const LABEL = new RegExp(
  String.raw`^["\s]*((?:${PATIENT}|${PLACE})${NUMBERED}?)[:=,;\t|]["\s]*([^,;\t|"]*)`,
  'i',
);

/** What a line says of its patient, and in which cell. */
interface Said {
  readonly index: number;
  readonly field: string;
  readonly name: string;
}

/**
 * Tells where a table begins to speak of another patient: a column that tells patients apart holds a second name, or a
 * line above or between the readings does. Null where all is of one, as far as the table says.
 * @param lines all lines of the file
 */
export function secondPatient(
  text: string,
  lines: readonly Line[],
  header: Line,
  place: CellPlace,
  file: string,
): Problem | null {
  const written = text.split(/\r\n|\n|\r/);
  const columns = [...header.cells.keys()].filter((at) => TITLE.test(header.cells[at] as string));
  const first = new Map<string, string>();
  for (const { line, cells } of lines) {
    if (line === header.line) continue;
    const label = labelOf(written[line - 1] ?? '');
    const inColumns = columns.map((index): Said => {
      return { index, field: header.cells[index] ?? '', name: cells[index] ?? '' };
    });
    for (const { index, field, name } of label ?? (line > header.line ? inColumns : [])) {
      if (name === '' || name === '-') continue;
      // A line above the table and a column of it may spell one name in two ways.
      const where = `${label === null} ${field}`;
      const before = first.get(where) ?? name;
      first.set(where, before);
      if (name === before) continue;
      const isMoved = TITLE.exec(field)?.[1] === undefined ? '' : MOVED;
      return {
        kind: 'readings of several patients',
        file,
        line,
        ...(label === null && place(line, index)),
        field,
        found: `${describe(name)}, after ${describe(before)}`,
        expected: 'the readings of one patient',
        mend: `Export each patient's readings to a file of its own, or take the other's lines out.${isMoved}`,
      };
    }
  }
  return null;
}

const MOVED = ' If one patient was moved, take out what tells where it lay.';

function labelOf(written: string): readonly Said[] | null {
  const [, field, name] = LABEL.exec(written) ?? [];
  if (field === undefined || name === undefined) return null;
  return [{ index: 0, field: field.replace(/[\W_]+$/, ''), name: name.trim() }];
}
