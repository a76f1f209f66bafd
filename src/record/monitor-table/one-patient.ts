import type { Problem } from '../problem.js';
import { describe } from '../refusal.js';
import type { Line } from '../vitals-rows.js';
import type { CellPlace } from './cell-place.js';

/** A title or a line that names a patient, in English, Spanish, German and French. Common practice. */
const PATIENT = /^\W*(patient|paciente|animal|tier\b|tiername|mascota|pet\b)/i;

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
    const isRow = line > header.line && cells.length >= header.cells.length;
    const named = isRow
      ? columns.map(
          (index) => [index, header.cells[index] as string, cells[index] as string] as const,
        )
      : namedOn(cells);
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
  if (!PATIENT.test(head)) return [];
  const [, field = head, inside = ''] = /^([^:=]*)[:=]?\s*(.*)$/.exec(head) ?? [];
  return [inside === '' ? [1, field.trim(), next] : [0, field.trim(), inside]];
}
