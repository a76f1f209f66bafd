import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Reading } from './reading.js';

const fixed = new Reading({
  'column widths': [8, 5, 6, 6],
  time: { column: 'Time', written: 'HH:mm:ss' },
  columns: [
    { channel: 'heart rate', column: 'HR', unit: '/min' },
    { channel: 'SpO2', column: 'SpO2', unit: '%' },
    { channel: 'temperature', column: 'T', unit: 'C' },
  ],
});
const TITLES = 'Time       HR  SpO2     T';

describe('a table of fixed widths', () => {
  it('is cut at places and not by a sign, with cells that are empty', () => {
    expect(
      fixed.rows(
        TITLES,
        '',
        '09:10:00  104    97  38.1',
        '09:15:00         98',
        '09:20:00   98        37.9',
      ),
    ).toEqual([
      [0, { 'heart rate': 104, SpO2: 97, temperature: 38.1 }],
      [5, { SpO2: 98 }],
      [10, { 'heart rate': 98, temperature: 37.9 }],
    ]);
  });

  it('counts letters, whatever their bytes', () => {
    const reading = fixed.with({
      time: { column: 1, written: 'HH:mm:ss' },
      columns: [{ channel: 'temperature', column: 4, unit: 'C' }],
    });
    expect(reading.rows('Zeit   Größe  💉      °C', '09:10:00    é     ü  38.1')).toEqual([
      [0, { temperature: 38.1 }],
    ]);
  });

  it('never cuts a number in two', () => {
    // One place further to the right, HR would be 1 and SpO2 04.
    expect(fixed.problems(TITLES, '09:10:00    104    97  38.1')).toMatchObject([
      {
        kind: 'a word across two columns',
        line: 2,
        field: 'SpO2',
        mend: expect.stringContaining('Mend "column widths"'),
      },
    ]);
    expect(fixed.problems(TITLES, '09:10:00\t104    97  38.1')).toHaveLength(1);
  });

  it('tells the same or is refused, wherever a space comes in or is lost', () => {
    const line = fc
      .tuple(
        fc.integer({ min: 40, max: 240 }),
        fc.integer({ min: 80, max: 100 }),
        fc.integer({ min: 350, max: 400 }),
      )
      .map(([rate, sat, tenths]) => [rate, sat, tenths / 10] as const);
    const change = fc.tuple(fc.nat(27), fc.integer({ min: 1, max: 4 }), fc.boolean());
    fc.assert(
      fc.property(line, change, ([rate, sat, t], [at, count, comes]) => {
        const whole = `09:10:00${String(rate).padStart(5)}${String(sat).padStart(6)}${t.toFixed(1).padStart(6)}`;
        const after = whole.slice(at);
        const lost = after.replace(new RegExp(`^ {0,${count}}`), '');
        const changed = whole.slice(0, at) + (comes ? ' '.repeat(count) + after : lost);
        const told = fixed.read(TITLES, changed);
        if (told.ok) {
          expect(told.value.rows.map(({ values }) => values)).toEqual([
            { 'heart rate': rate, SpO2: sat, temperature: t },
          ]);
        }
      }),
      { numRuns: 2000, seed: 11 },
    );
  });

  it('is refused where something stands beyond the last column', () => {
    expect(fixed.problems(TITLES, '09:10:00  104    97  38.1   9')).toMatchObject([
      { line: 2, found: '5 columns', mend: 'Mend "column widths" of the form.' },
    ]);
    expect(fixed.problems(`${TITLES}emperature`, '09:10:00  104    97  38.1')).toMatchObject([
      { line: 1, kind: 'columns that the form does not find' },
    ]);
  });

  it('passes over a footer, and tells of one that could be a reading', () => {
    const line = '09:10:00  104    97  38.1';
    expect(fixed.rows(TITLES, line, 'End of the export, all is well')).toHaveLength(1);
    expect(fixed.problems(TITLES, line, 'Printed on     44  pages')).toMatchObject([{ line: 3 }]);
  });

  it('shows where in the line a cell stands', () => {
    expect(fixed.problems(TITLES, '09:10:00  104   abc  38.1')).toMatchObject([
      { line: 2, column: 17, end: 20, field: 'SpO2' },
    ]);
  });

  it('may have columns that touch, where the form says so', () => {
    const packed = fixed.with({ 'column widths': [8, 3, 4, 4], 'columns touch': 'yes' });
    const titles = 'Time     HRSpO2   T';
    expect(packed.rows(titles, '09:10:00104  9738.1', '09:15:00 98 10037.9')).toEqual([
      [0, { 'heart rate': 104, SpO2: 97, temperature: 38.1 }],
      [5, { 'heart rate': 98, SpO2: 100, temperature: 37.9 }],
    ]);
    expect(packed.problems(titles, '09:10:00 104 9738.1')).toMatchObject([
      { kind: 'a word across two columns' },
    ]);
  });

  it.each([
    [{ 'between columns': 'tab' }, 'between columns'],
    [{ 'column widths': undefined, 'columns touch': 'yes' }, 'columns touch'],
    [{ 'column widths': [8, 0] }, 'column widths.1'],
    [{ 'column widths': [8] }, 'column widths'],
  ])('has no form that contradicts itself: %j', (parts, path) => {
    expect(fixed.with(parts).refusals()).toContainEqual(expect.objectContaining({ path }));
  });
});
