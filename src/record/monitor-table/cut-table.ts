import { good, type Outcome } from '../problem.js';
import type { Line } from '../vitals-rows.js';
import { type CellPlace, cellPlaces } from './cell-place.js';
import { cellsOfWidths, widthPlaces } from './fixed-widths.js';
import { SEPARATORS, type TableForm } from './table-form.js';
import { cellsOf } from './table-text.js';

interface CutTable {
  readonly lines: readonly Line[];
  readonly place: CellPlace;
}

/** The lines of a table cut into cells, as its form says, and where each cell stands. */
export function cutTable(text: string, form: TableForm, file: string): Outcome<CutTable> {
  const { 'column widths': widths, 'columns touch': touch } = form;
  if (widths) {
    const fixed = { widths, touch: touch === 'yes' };
    return good({ lines: cellsOfWidths(text, fixed), place: widthPlaces(text, fixed) });
  }
  const separator = SEPARATORS[form['between columns'] ?? 'comma'];
  const lines = cellsOf(text, separator, file);
  return lines.ok ? good({ lines: lines.value, place: cellPlaces(text, separator) }) : lines;
}
