import { Temporal } from 'temporal-polyfill';
import { readTable } from '../../../src/record/monitor-table/read-table.js';
import { tableForm } from '../../../src/record/monitor-table/table-form.js';
import { accepted, problemsOf } from '../sample.js';

const bytesOf = (text: string) => new TextEncoder().encode(text);

/** What a clinic's form reads from a table: minutes and readings, or the problems. */
export class Reading {
  constructor(
    private readonly form: object,
    private readonly begin = '2026-03-09T09:10',
    private readonly ahead = 0,
    private readonly zone = 'America/Chicago',
  ) {}

  with(parts: object): Reading {
    return new Reading({ ...this.form, ...parts }, this.begin, this.ahead, this.zone);
  }

  read(...lines: string[]) {
    const begin = Temporal.PlainDateTime.from(this.begin).toZonedDateTime(this.zone);
    const form = tableForm.parse({ name: 'ward', ...this.form });
    return readTable(bytesOf(lines.join('\n')), 'export.csv', begin, form, this.ahead);
  }

  table(...lines: string[]) {
    return accepted(this.read(...lines));
  }

  rows(...lines: string[]) {
    return this.table(...lines).rows.map(({ minute, values }) => [minute, values]);
  }

  problems(...lines: string[]) {
    return problemsOf(this.read(...lines));
  }

  /** What is wrong with the form itself. */
  refusals(): { readonly path: string; readonly mend: string }[] {
    const issues = tableForm.safeParse({ name: 'ward', ...this.form }).error?.issues ?? [];
    return issues.map(({ path, message }) => ({ path: path.join('.'), mend: message }));
  }
}
