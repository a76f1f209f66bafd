import { nearest } from '../nearest.js';
import type { Problem } from '../problem.js';
import { describe, shortened } from '../refusal.js';
import type { Line, TablePlan } from '../vitals-rows.js';
import type { CellPlace } from './cell-place.js';
import type { TableForm } from './table-form.js';

/** Finds the columns that a form names, below a line of titles; what it does not find goes to `problems`. */
export class Columns {
  constructor(
    private readonly header: Line,
    private readonly form: TableForm,
    private readonly file: string,
    private readonly place: CellPlace,
    readonly problems: Problem[] = [],
  ) {
    const titles = header.cells;
    const all = form['column widths']?.length ?? form['columns in all'] ?? titles.length;
    if (titles.length === all) return;
    const why = form['column widths']
      ? `, as "column widths" of the form "${form.name}" says`
      : `, as in the form "${form.name}", which names some by their number`;
    this.complain({
      found: `${titles.length} columns`,
      expected: `${all} columns${why}`,
      mend: form['column widths']
        ? 'Mend "column widths" of the form: they take in the titles, too.'
        : 'Make a form of its own for tables with these columns: "thrice table FILE" proposes one.',
    });
  }

  private complain(said: Pick<Problem, 'found' | 'expected' | 'mend'> & Partial<Problem>): void {
    const { file, header } = this;
    this.problems.push({
      kind: 'columns that the form does not find',
      file,
      line: header.line,
      ...said,
    });
  }

  /** The index of a column. */
  find(named: string | number): number {
    const titles = this.header.cells;
    if (typeof named === 'number' && named <= titles.length) return named - 1;
    const title = String(named);
    const index = titles.indexOf(title);
    const again = titles.indexOf(title, index + 1);
    if (index >= 0 && again < 0) return index;
    const close = nearest(title, titles);
    this.complain({
      ...this.place(this.header.line, again),
      field: title,
      found: index < 0 ? `no column "${shortened(title)}"` : `two columns "${shortened(title)}"`,
      expected: `the columns of the form "${this.form.name}", each once`,
      mend:
        index >= 0
          ? `Name the one that is meant by its number: "column: ${index + 1}" or "column: ${again + 1}".`
          : close
            ? `The table has a column "${close}": mend the form if that is meant.`
            : "Mend the form in the clinic's file, or export the table again.",
    });
    return index;
  }
}

/** How any table of a form is read. */
export function tablePlan(
  { cells: titles }: Line,
  form: TableForm,
  timeAt: number,
  place: CellPlace,
): TablePlan {
  const comma = form.decimal === 'comma';
  const decimal = comma ? /^-?\d+(,\d+)?$/ : /^-?\d+(\.\d+)?$/;
  return {
    titles,
    timeAt,
    number: (cell) => (decimal.test(cell) ? Number(cell.replace(',', '.')) : Number.NaN),
    expected: `a number with a decimal ${form.decimal}, an empty cell or a mark for a missing reading`,
    mend: (cell) =>
      `If ${describe(cell)} means that there is no reading, add it to "missing" of the form "${form.name}"; else mend the cell.`,
    noReading: (cell) =>
      `If the monitor writes ${describe(cell)} where there is no reading, add it to "missing" of the form "${form.name}".`,
    place,
    clockMend: `Mend "written" of the form "${form.name}"; where the day is another, see whether the file and "surgery.date" are of this patient.`,
    orderMend: orderMend(form),
    surplus: form['column widths']
      ? 'Mend "column widths" of the form.'
      : 'Check "between columns" and "decimal" of the form.',
  };
}

function orderMend({ name, time: { written }, 'newest first': isNewestFirst }: TableForm): string {
  const order =
    isNewestFirst === 'yes'
      ? `If this table begins with its oldest line, take "newest first" out of the form "${name}"; else sort the lines, the latest first.`
      : `If the monitor writes its latest line first, add "newest first: yes" to the form "${name}"; else sort the lines by their time.`;
  const mayBeHalf = typeof written !== 'string' && /H/.test(written.pattern);
  return mayBeHalf
    ? `${order} If its hours go from 12 to 1 without AM or PM, write h for H in "written".`
    : order;
}
