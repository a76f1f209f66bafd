import type { Problem } from '../problem.js';
import { describe } from '../refusal.js';
import type { Line } from '../vitals-rows.js';
import type { CellPlace } from './cell-place.js';

/** A title that names patients and nothing else, in English, Spanish, German and French. Common practice. */
const PATIENT =
  /^[\W_]*(patient|paciente|animal|tier|mascota|pet)[\W_]*(id|name|nombre|nom|no|nr|num\w*|núm\w*|code)?[\W_]*$/i;

/**
 * Tells where a table begins to speak of another patient: a column that names patients holds a second name, or a line
 * above or between the readings does. Null where all is of one, as far as the table says.
 * @param lines all lines of the file
 */
export function secondPatient(
  lines: readonly Line[],
  header: Line,
  place: CellPlace,
  file: string,
): Problem | null {
  const columns = header.cells.flatMap((title, index) => (PATIENT.test(title) ? [index] : []));
  const first = new Map<string, string>();
  for (const { line, cells } of lines) {
    if (line === header.line) continue;
    const own = namedOn(cells);
    const isRow = line > header.line && own.length === 0;
    const named = isRow
      ? columns.map((at) => [at, header.cells[at] ?? '', cells[at] ?? ''] as const)
      : own;
    for (const [index, field, name] of named) {
      if (name === '' || name === '-') continue;
      const before = first.get(field) ?? name;
      first.set(field, before);
      if (name === before) continue;
      return {
        kind: 'readings of several patients',
        file,
        line,
        ...place(line, index),
        field,
        found: `${describe(name)}, after ${describe(before)}`,
        expected: 'the readings of one patient',
        mend: "Export each patient's readings to a file of its own, or take the other's lines out.",
      };
    }
  }
  return null;
}

/** What a line such as `Patient: Larch` names, and where; nothing on any other line. */
function namedOn(cells: readonly string[]): readonly (readonly [number, string, string])[] {
  const [head = '', next = ''] = cells;
  const [, field = head, inside = ''] = /^([^:=]*)[:=]\s*(.*)$/.exec(head) ?? [];
  if (!PATIENT.test(field)) return [];
  return [inside === '' ? [1, field.trim(), next] : [0, field.trim(), inside]];
}
