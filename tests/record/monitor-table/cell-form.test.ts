import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { type CellForm, cellForm, partsOf } from '../../../src/record/monitor-table/cell-form.js';
import { readTable } from '../../../src/record/monitor-table/read-table.js';
import { tableForm } from '../../../src/record/monitor-table/table-form.js';
import { accepted, problemsOf } from '../sample.js';

const begin = Temporal.PlainDateTime.from('2026-03-09T09:10').toZonedDateTime('America/Chicago');
const parts = (cell: string, pattern: string) => {
  const found = partsOf(cell, cellForm(pattern) as CellForm);
  return found && Object.fromEntries(found);
};

describe('a cell with more than a number', () => {
  it.each([
    ['120/60 (80)', { systolic: '120', diastolic: '60', mean: '80' }],
    [' 120 / 60(80) ', { systolic: '120', diastolic: '60', mean: '80' }],
    ['120,5/60.5 (80)', { systolic: '120,5', diastolic: '60.5', mean: '80' }],
    ['--/60 (80)', { systolic: '--', diastolic: '60', mean: '80' }],
    ['/60 ()', { systolic: '', diastolic: '60', mean: '' }],
    ['60 (80)', null],
    ['120/60', null],
    ['120/60 (80) *', null],
    ['120/60/80', null],
    ['1 20/60 (80)', null],
  ])('is read by its signs: %j', (cell, expected) => {
    expect(parts(cell, 'systolic/diastolic (mean)')).toEqual(expected);
  });

  it('has numbers without a minus where that stands between them', () => {
    expect(parts('120-60', 'systolic-diastolic')).toEqual({ systolic: '120', diastolic: '60' });
    expect(parts('-3 °C', 'temperature °C')).toEqual({ temperature: '-3' });
  });

  it.each([
    ['sys/dia', /it names none of systolic/],
    ['systolic/systolic', /names a channel twice/],
    ['systolic diastolic', /nothing but a space/],
    ['heart rate', /name its "channel"/],
  ])('has no form %j', (pattern, why) => {
    expect(cellForm(pattern)).toMatch(why);
  });
});

describe('a form of a table with such cells', () => {
  const form = (column: object) => ({
    name: 'ward',
    time: { column: 'Time', written: 'HH:mm' },
    columns: [{ column: 'NIBP', unit: 'mmHg', ...column }],
  });
  const read = (cell: string, more: object = {}) =>
    readTable(
      new TextEncoder().encode(`Time,NIBP\n09:15,${cell}\n`),
      'export.csv',
      begin,
      tableForm.parse({ ...form({ written: 'systolic/diastolic (mean)' }), ...more }),
    );

  it('is plain data, which a build can hand to its threads', () => {
    const told = tableForm.parse(form({ written: 'systolic/diastolic (mean)' }));
    expect(structuredClone(told)).toEqual(told);
  });

  it('tells a cell of another form once, and what to do about it', () => {
    expect(problemsOf(read('120 over 60'))).toMatchObject([
      {
        kind: 'a reading that is no number',
        line: 2,
        field: 'NIBP',
        found: '"120 over 60"',
        expected: expect.stringContaining('systolic/diastolic (mean)'),
      },
    ]);
  });

  it('never moves a number into the place of a missing one', () => {
    expect(problemsOf(read('xx/60 (80)'))).toMatchObject([{ found: '"xx"', field: 'NIBP' }]);
    expect(accepted(read('xx/60 (80)', { missing: ['xx'] })).rows[0]?.values).toEqual({
      diastolic: 60,
      mean: 80,
    });
  });

  it.each([
    ['both a channel and a form', { channel: 'mean', written: 'systolic/diastolic' }, /both/],
    ['neither', {}, /neither/],
    ['another unit than its channels have', { written: 'mean/heart rate' }, /mmHg/],
  ])('is refused with %s', (_, column, found) => {
    const { error } = tableForm.safeParse(form(column));
    expect(JSON.stringify(error?.issues)).toMatch(found);
  });

  it('is refused where a channel stands in two columns', () => {
    const two = form({ written: 'systolic/diastolic' });
    const { error } = tableForm.safeParse({
      ...two,
      columns: [...two.columns, { channel: 'systolic', column: 'SYS', unit: 'mmHg' }],
    });
    expect(JSON.stringify(error?.issues)).toMatch(/systolic/);
  });
});
