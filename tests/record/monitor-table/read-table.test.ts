import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { readTable } from '../../../src/record/monitor-table/read-table.js';
import { type TableForm, tableForm } from '../../../src/record/monitor-table/table-form.js';
import { accepted, problemsOf } from '../sample.js';

const begin = Temporal.PlainDateTime.from('2026-03-09T09:10').toZonedDateTime('America/Chicago');
const utf8 = (text: string) => new TextEncoder().encode(text);
const form = (parts: object): TableForm =>
  tableForm.parse({
    name: 'ward',
    time: { column: 'Time', written: 'HH:mm' },
    columns: [{ channel: 'heart rate', column: 'Pulse', unit: '/min' }],
    ...parts,
  });
const read = (text: string | Uint8Array, parts: object = {}) =>
  readTable(typeof text === 'string' ? utf8(text) : text, 'export.csv', begin, form(parts));

describe("a monitor's own table", () => {
  it('is read with semicolons, decimal commas, a preamble and marks for missing readings', () => {
    const table = [
      'Serial;A-17',
      '',
      'Datum;Zeit;Puls;Temp [°C]',
      '09.03.2026;09:10:00;112;38,4',
      '09.03.2026;09:15:00;---;38,2',
    ].join('\r\n');
    const { rows } = accepted(
      read(table, {
        'between columns': 'semicolon',
        decimal: 'comma',
        'titles on line': 3,
        missing: ['---'],
        day: { column: 'Datum', written: 'dd.MM.yyyy' },
        time: { column: 'Zeit', written: 'HH:mm:ss' },
        columns: [
          { channel: 'heart rate', column: 'Puls', unit: '/min' },
          { channel: 'temperature', column: 'Temp [°C]', unit: '°C' },
        ],
      }),
    );
    expect(rows).toEqual([
      { line: 4, minute: 0, values: { 'heart rate': 112, temperature: 38.4 } },
      { line: 5, minute: 5, values: { temperature: 38.2 } },
    ]);
  });

  it('has a form of plain data, which a build can hand to its threads', () => {
    const told = form({ time: { column: 'Time', written: 'dd.MM.yyyy HH:mm' } });
    expect(structuredClone(told)).toEqual(told);
  });

  it('takes a time by its distance from UTC, whatever the clock of the clinic', () => {
    const { rows } = accepted(
      read('Time,Pulse\n2026-03-09T14:10:00Z,90\n2026-03-09T09:15:00-05:00,91\n', {
        time: { column: 'Time', written: 'yyyy-MM-ddTHH:mm:ssXXX' },
      }),
    );
    expect(rows.map(({ minute }) => minute)).toEqual([0, 5]);
  });

  it('says once that a clock is not understood, and on how many lines', () => {
    const table = `Time,Pulse\n${Array.from({ length: 30 }, (_, i) => `9h${10 + i},90\n`).join('')}`;
    expect(problemsOf(read(table))).toEqual([
      expect.objectContaining({
        kind: 'a line without its time',
        line: 2,
        found: '"9h10", and the like on 29 more lines',
        mend: expect.stringContaining('Mend "written" of the form "ward"'),
      }),
    ]);
  });

  it('passes midnight with days written, and without', () => {
    const late = Temporal.PlainDateTime.from('2026-03-09T23:50').toZonedDateTime('America/Chicago');
    const told = form({ time: { column: 'Time', written: 'yyyy-MM-dd HH:mm' } });
    const table = (a: string, b: string) => utf8(`Time,Pulse\n${a},90\n${b},91`);
    const minutes = (bytes: Uint8Array, one: TableForm) =>
      accepted(readTable(bytes, 'a.csv', late, one)).rows.map(({ minute }) => minute);
    expect(minutes(table('2026-03-09 23:55', '2026-03-10 00:05'), told)).toEqual([5, 15]);
    expect(minutes(table('23:55', '00:05'), form({}))).toEqual([5, 15]);
  });

  it('converts units as our own table does (NIST SP 811: 1 mmHg = 133.3224 Pa)', () => {
    const { rows } = accepted(
      read('Time,MAP\n09:10,10', { columns: [{ channel: 'mean', column: 'MAP', unit: 'kPa' }] }),
    );
    expect(rows[0]?.values.mean).toBeCloseTo(75.0062, 2);
  });

  it('counts elapsed seconds', () => {
    const parts = { time: { column: 'Time', written: 'seconds' } };
    expect(accepted(read('Time,Pulse\n0,90\n90,91', parts)).rows.map((row) => row.minute)).toEqual([
      0, 1.5,
    ]);
  });

  it('is read in its encoding, and refused in another', () => {
    const bytes = Uint8Array.from([...utf8('Time,Fr'), 0xe9, ...utf8('quence\n09:10,88')]);
    const columns = [{ channel: 'heart rate', column: 'Fréquence', unit: '/min' }];
    expect(accepted(read(bytes, { columns, encoding: 'windows-1252' })).rows).toHaveLength(1);
    expect(problemsOf(read(bytes, { columns }))).toMatchObject([
      { file: 'export.csv', found: 'bytes that are not utf-8' },
    ]);
  });

  it.each([
    ['Time,Puls\n09:10,90', { line: 1, field: 'Pulse', mend: /"Puls"/ }],
    [
      'Time,Pulse,Pulse\n09:10,90,91',
      { line: 1, found: 'two columns "Pulse"', mend: /"column: 2" or "column: 3"/ },
    ],
    ['Time,Pulse\n09:10,90\n09.15,91', { line: 3, expected: 'a time written like HH:mm' }],
    ['Time,Pulse\n09:10,90\n09:05,91', { line: 3, expected: /later/ }],
    ['Time,Pulse\n09:10,?', { line: 2, mend: /add it to "missing"/ }],
    ['Time,Pulse\n09:10,9000', { line: 2, expected: 'between 0 and 500 /min' }],
    ['Time,Pulse\n09:10,90,4', { line: 2, mend: /between columns/ }],
  ])('tells of %j where it is wrong', (text, problem) => {
    const [found] = problemsOf(read(text));
    for (const [key, value] of Object.entries(problem)) {
      if (value instanceof RegExp) expect(found?.[key as 'mend']).toMatch(value);
      else expect(found).toMatchObject({ [key]: value });
    }
  });

  it('refuses lines of another day', () => {
    const parts = { time: { column: 'Time', written: 'yyyy-MM-dd HH:mm' } };
    expect(problemsOf(read('Time,Pulse\n2026-03-02 09:10,90', parts))).toMatchObject([
      { line: 2, expected: /within 24 hours.*other patients/ },
    ]);
  });

  it.each([
    [{ time: { column: 0, written: 'HH:mm' } }, 'time.column'],
    [{ columns: [{ channel: 'mean', column: 'MAP', unit: 'psi' }] }, 'columns.0.unit'],
    [{ time: { column: 'Time', written: 'dd.MM.yyyy' } }, 'time.written'],
    [{ day: { column: 'Day', written: 'HH:mm' } }, 'day.written'],
    [{ time: { column: 'Time', written: 'secnods' } }, 'time.written'],
  ])('has no form that cannot be: %j', (parts, path) => {
    const result = z.safeParse(tableForm, {
      name: 'ward',
      time: { column: 'Time', written: 'HH:mm' },
      columns: [{ channel: 'heart rate', column: 'Pulse', unit: '/min' }],
      ...parts,
    });
    expect(result.error?.issues.map((issue) => issue.path.join('.'))).toContain(path);
  });
});

it('begins where the form says that readings begin', () => {
  const lines = 'Time,Pulse\nhh:mm,bpm\n09:15,100\n';
  expect(accepted(read(lines, { 'readings from line': 3 })).rows).toMatchObject([{ line: 3 }]);
});

it('asks for seconds where lines of one minute cannot be told apart, and says once on how many lines', () => {
  const lines = Array.from({ length: 60 }, (_, row) => `09:15,${100 + row}`).join('\n');
  const problems = problemsOf(read(`Time,Pulse\n${lines}\n`));
  expect(problems[0]?.mend).toBe('Keep one line of each time, or export the table with seconds.');
  expect(problems.at(-1)?.found).toBe('"09:15", and the like on 58 more lines');
  expect(problems).toHaveLength(1);
});

it('says how to tell a mark that is a number', () => {
  expect(problemsOf(read('Time,Pulse\n09:15,-1\n'))[0]?.mend).toContain('add it to "missing"');
});

const minutesOf = (table: string, parts: object) =>
  accepted(read(table, parts)).rows.map(({ minute }) => minute);

describe('times that are counted', () => {
  const at = (written: string) => ({ time: { column: 'Time', written } });

  it.each([
    [
      'hours:minutes:seconds',
      ['0:00:05', '00:05:05', '1:00:05,5'],
      [1 / 12, 61 / 12, 60 + 11 / 120],
    ],
    ['Unix seconds', ['1773065400', '1773065700'], [0, 5]],
    ['Unix milliseconds', ['1773065400000', '1773065430000'], [0, 0.5]],
  ])('are read as %s', (written, cells, minutes) => {
    const lines = cells.map((cell) => `"${cell}",90\n`).join('');
    for (const [index, minute] of minutesOf(`Time,Pulse\n${lines}`, at(written)).entries()) {
      expect(minute).toBeCloseTo(minutes[index] as number, 9);
    }
  });

  it('are refused where they are of another patient, or none', () => {
    const [problem] = problemsOf(read('Time,Pulse\n1773065400,90', at('Unix milliseconds')));
    expect(problem).toMatchObject({ line: 2, expected: expect.stringContaining('24 hours') });
    expect(problemsOf(read('Time,Pulse\n09:10,90', at('seconds')))).toMatchObject([
      { expected: 'seconds, counted from the start of anesthesia' },
    ]);
  });
});

describe('columns', () => {
  it('are named by their number where two titles are alike, or one is empty', () => {
    const column = (number: number) => [{ channel: 'heart rate', column: number, unit: '/min' }];
    const table = 'Time,HR,HR,\n09:10,90,91,92';
    const rate = (number: number) =>
      accepted(read(table, { columns: column(number), 'columns in all': 4 })).rows[0]?.values[
        'heart rate'
      ];
    expect([2, 3, 4].map(rate)).toEqual([90, 91, 92]);
    const fifth = { columns: column(5), 'columns in all': 4 };
    expect(problemsOf(read(table, fifth))[0]?.found).toBe('no column "5"');
  });

  it('that are named by their number are refused in a table that has more or fewer', () => {
    const columns = [{ channel: 'heart rate', column: 2, unit: '/min' }];
    const wider = read('Time,Room,HR,HR\n09:10,4,90,91', { columns, 'columns in all': 3 });
    expect(problemsOf(wider)).toMatchObject([{ line: 1, found: '4 columns' }]);
    const form = { name: 'ward', time: { column: 'Time', written: 'HH:mm' }, columns };
    expect(tableForm.safeParse(form).error?.issues).toMatchObject([{ path: ['columns'] }]);
  });

  it('have marks of their own, so that a zero is no saturation and yet a breath that was not taken', () => {
    const columns = [
      { channel: 'SpO2', column: 'Sat', unit: '%', missing: ['0'] },
      { channel: 'breaths', column: 'RR', unit: '/min' },
    ];
    const { rows } = accepted(read('Time,Sat,RR\n09:10,0,0', { columns }));
    expect(rows[0]?.values).toEqual({ breaths: 0 });
  });

  it('of saturation may tell a fraction', () => {
    const columns = [{ channel: 'SpO2', column: 'Sat', unit: 'fraction' }];
    const { rows } = accepted(read('Time,Sat\n09:10,0.97', { columns }));
    expect(rows[0]?.values).toEqual({ SpO2: 97 });
  });

  it('may end with a separator below titles that do not', () => {
    expect(accepted(read('Time,Pulse\n09:10,90,\n09:15,91,,')).rows).toHaveLength(2);
  });

  it('with commas between them may have decimal commas in quotes', () => {
    const columns = [{ channel: 'temperature', column: 'T', unit: 'C' }];
    const { rows } = accepted(read('Time,T\n09:10,"37,8"', { columns, decimal: 'comma' }));
    expect(rows[0]?.values).toEqual({ temperature: 37.8 });
  });
});

describe('lines', () => {
  it('are read from the last where the newest comes first', () => {
    const table = 'Time,Pulse\n09:20,92\n09:15,91\n09:10,90';
    const { rows } = accepted(read(table, { 'newest first': 'yes' }));
    expect(rows.map(({ line, minute }) => [line, minute])).toEqual([
      [4, 0],
      [3, 5],
      [2, 10],
    ]);
  });

  it('that go back one after the other are told once, with what the form can say', () => {
    const lines = [30, 25, 20, 15, 14].map((minute) => `09:${minute},90\n`).join('');
    const problems = problemsOf(read(`Time,Pulse\n${lines}`));
    expect(problems).toHaveLength(1);
    expect(problems[0]?.mend).toContain('add "newest first: yes" to the form "ward"');
    const upwards = [14, 15, 20, 25, 30].map((minute) => `09:${minute},90\n`).join('');
    const [problem] = problemsOf(read(`Time,Pulse\n${upwards}`, { 'newest first': 'yes' }));
    expect(problem?.mend).toContain('take "newest first" out of the form "ward"');
  });

  it('that repeat the one before say nothing new, and those that contradict it are told', () => {
    expect(accepted(read('Time,Pulse\n09:10,90\n09:10,90\n09:15,91')).rows).toHaveLength(2);
    expect(problemsOf(read('Time,Pulse\n09:10,90\n09:10,95'))).toMatchObject([
      { line: 3, expected: 'one line for each time' },
    ]);
  });

  it('of one time may each hold some of its readings, and none that contradicts', () => {
    const columns = [
      { channel: 'heart rate', column: 'Pulse', unit: '/min' },
      { channel: 'systolic', column: 'S', unit: 'mmHg' },
      { channel: 'diastolic', column: 'D', unit: 'mmHg' },
    ];
    const rows = (...lines: string[]) => read(`Time,Pulse,S,D\n${lines.join('\n')}`, { columns });
    expect(accepted(rows('09:10,90,,', '09:10,,120,60', '09:10,90,120,60')).rows).toEqual([
      {
        line: 2,
        minute: 0,
        values: { 'heart rate': 90, systolic: 120, diastolic: 60 },
        lines: { systolic: 3, diastolic: 3 },
      },
    ]);
    expect(problemsOf(rows('09:10,90,120,', '09:10,91,,60'))).toMatchObject([
      { line: 3, expected: 'one line for each time' },
    ]);
    expect(problemsOf(rows('09:10,90,60,', '09:10,,,120'))).toMatchObject([
      { kind: 'pressures out of order', line: 3 },
    ]);
  });

  it('of an event beside the readings of its time are passed over, whichever comes first', () => {
    const table = 'Time,Pulse,Event\n09:10,,drug\n09:10,90,\n09:15,91,\n09:15,,drug';
    expect(accepted(read(table)).rows).toMatchObject([
      { line: 3, values: { 'heart rate': 90 } },
      { line: 4, values: { 'heart rate': 91 } },
    ]);
  });

  it('without a time and without a reading, such as a footer, are passed over', () => {
    const table = 'Time,Pulse,Room\n09:10,90,4\n\nEnd of export,,4\nPrinted by station 4';
    expect(accepted(read(table)).rows).toMatchObject([{ line: 2 }]);
  });

  it('with a reading and no time, or cut off within a time, are told', () => {
    expect(problemsOf(read('Time,Pulse\n09:10,90\nend,91'))).toMatchObject([{ line: 3 }]);
    expect(problemsOf(read('Time,Pulse,Room\n09:10,90,4\n09:15'))).toMatchObject([
      { line: 3, found: '1 columns' },
    ]);
  });

  it('are told where none of them says anything', () => {
    expect(problemsOf(read('Time,Pulse\n9h10,\n9h15,'))).toMatchObject([
      { kind: 'a table without lines', line: 2 },
    ]);
  });

  it('show the day that a date was read as, in the column of the day', () => {
    const parts = { day: { column: 'Day', written: 'd/M/yyyy' } };
    expect(problemsOf(read('Day,Time,Pulse\n03/09/2026,09:10,90', parts))).toMatchObject([
      { line: 2, column: 1, field: 'Day', found: '"03/09/2026", read as 2026-09-03' },
    ]);
  });
});
