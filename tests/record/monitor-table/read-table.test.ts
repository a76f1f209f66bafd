import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { proposeForm } from '../../../src/record/monitor-table/propose-form.js';
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
    ['Time,Pulse,Pulse\n09:10,90,91', { line: 1, found: 'two columns "Pulse"' }],
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
    [{ decimal: 'comma' }, 'decimal'],
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
  const lines = Array.from({ length: 60 }, () => '09:15,100').join('\n');
  const problems = problemsOf(read(`Time,Pulse\n${lines}\n`));
  expect(problems[0]?.mend).toBe('Keep one line of each time, or export the table with seconds.');
  expect(problems.at(-1)?.found).toBe('"09:15", and the like on 58 more lines');
  expect(problems).toHaveLength(1);
});

it('says how to tell a mark that is a number', () => {
  expect(problemsOf(read('Time,Pulse\n09:15,-1\n'))[0]?.mend).toContain('add it to "missing"');
});

describe('the form that is proposed for a sample', () => {
  const signs = { comma: ',', semicolon: ';', tab: '\t', bar: '|' } as const;
  const clocks: Record<string, (minute: number) => string> = {
    'dd.MM.yyyy HH:mm:ss': (m) => `09.03.2026 ${two(9 + Math.floor(m / 60))}:${two(m % 60)}:00`,
    'yyyy-MM-dd HH:mm': (m) => `2026-03-09 ${two(9 + Math.floor(m / 60))}:${two(m % 60)}`,
    'H:mm': (m) => `${9 + Math.floor(m / 60)}:${two(m % 60)}`,
    'h:mm a': (m) =>
      `${((8 + Math.floor(m / 60)) % 12) + 1}:${two(m % 60)} ${m < 180 ? 'AM' : 'PM'}`,
  };
  const two = (n: number) => String(n).padStart(2, '0');

  it('reads back every table that is written in one of these ways', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...(Object.keys(signs) as (keyof typeof signs)[])),
        fc.boolean(),
        fc.constantFrom(...Object.keys(clocks)),
        fc.constantFrom('---', '***', '', 'n/a'),
        fc.array(
          fc.tuple(
            fc.integer({ min: 41, max: 240 }),
            fc.integer({ min: 300, max: 420 }),
            fc.boolean(),
          ),
          { minLength: 3, maxLength: 30 },
        ),
        fc.boolean(),
        (separator, comma, clock, mark, readings, wide) => {
          fc.pre(!(comma && separator === 'comma'));
          const sign = signs[separator];
          const number = (tenths: number) => {
            const text = (tenths / 10).toFixed(1);
            return comma ? text.replace('.', ',') : text;
          };
          const lines = readings.map(([rate, tenths, missing], index) =>
            [
              (clocks[clock] as (m: number) => string)(10 + 5 * index),
              missing ? mark : rate,
              number(tenths),
            ].join(sign),
          );
          const text = [['When', 'HR (bpm)', 'T1 °C'].join(sign), ...lines].join('\n');
          const bytes = wide ? Buffer.from(`\ufeff${text}`, 'utf16le') : utf8(text);
          const proposed = proposeForm(bytes);
          if (!proposed) throw new Error('nothing proposed');
          const { separator: between, titlesOn, readingsFrom, day, ...more } = proposed;
          const { leftOver: _l, doubts: _d, ...rest } = more;
          expect(readingsFrom).toBeNull();
          const taken = tableForm.parse({
            name: 'sample',
            ...rest,
            ...(day && { day }),
            'between columns': between,
            'titles on line': titlesOn,
          });
          const { rows } = accepted(readTable(bytes, 'a.csv', begin, taken));
          expect(
            rows.map(({ minute, values }) => [minute, values['heart rate'], values.temperature]),
          ).toEqual(
            readings.map(([rate, tenths, missing], index) => [
              5 * index,
              missing ? undefined : rate,
              tenths / 10,
            ]),
          );
        },
      ),
      { numRuns: 300, seed: 7 },
    );
  });

  it('finds the titles below a long preamble', () => {
    const preamble = Array.from({ length: 20 }, (_, line) => `Line ${line}: of the monitor`);
    const form = proposeForm(
      Buffer.from([...preamble, 'Time,HR', '09:45,104', '09:50,98', ''].join('\n')),
    );
    expect(form).toMatchObject({ titlesOn: 21, columns: [{ channel: 'heart rate' }] });
  });

  it('takes units from a line below the titles, and begins to read after it', () => {
    const table = Buffer.from('Time,T1,SpO2\nhh:mm,F,%\n09:45,99.5,98\n09:50,99.1,99\n');
    const form = proposeForm(table);
    expect(form).toMatchObject({
      readingsFrom: 3,
      time: { column: 'Time', written: 'H:mm' },
      columns: [
        { channel: 'temperature', unit: 'F' },
        { channel: 'SpO2', unit: '%' },
      ],
      doubts: [],
    });
  });

  it('takes no cell with two numbers for a missing reading', () => {
    const form = proposeForm(
      utf8(
        'Time|Pulse|PAS/PAD (PAM)|T1 °C\n9:45|104|120/60 (80)|38.1\n9:50|98*|118/58 (78)|38.0\n',
      ),
    );
    expect(form).toMatchObject({
      missing: [],
      columns: [{ channel: 'heart rate' }, { channel: 'temperature' }],
      leftOver: ['PAS/PAD (PAM)'],
    });
    expect(form?.doubts).toEqual([
      expect.stringContaining('"Pulse" has cells with more than a number (98*)'),
      expect.stringContaining('"PAS/PAD (PAM)" has cells with more than a number (120/60 (80))'),
    ]);
  });

  it('guesses kilopascals where no patient has so few millimetres of mercury', () => {
    const form = proposeForm(
      utf8('Date,Time,EtCO2,NIBP-S,NIBP-M\n9.3.26,9:45,5.3,14.1,9.8\n9.3.26,9:50,5.1,13.9,9.6\n'),
    );
    expect(form).toMatchObject({
      day: { column: 'Date', written: 'd.M.yy' },
      columns: [{ unit: 'kPa' }, { unit: 'kPa' }, { unit: 'kPa' }],
    });
    expect(proposeForm(utf8('Time,EtCO2,NIBP-S\n9:45,41,110\n9:50,39,112\n'))).toMatchObject({
      columns: [{ unit: 'mmHg' }, { unit: 'mmHg' }],
    });
  });

  it('tells what it guessed and what it left over', () => {
    const proposed = proposeForm(
      utf8(
        'Date,Time,SYS,DIA,MAP,Room\n03/04/2026,09:10,120,70,---,4\n03/05/2026,09:15,118,68,84,4',
      ),
    );
    expect(proposed).toMatchObject({
      day: { column: 'Date', written: 'd/M/yyyy' },
      time: { column: 'Time', written: 'H:mm' },
      missing: ['---'],
      leftOver: ['Room'],
    });
    expect(proposed?.doubts.join('\n')).toMatch(/day or month first/);
    expect(proposed?.doubts.join('\n')).toMatch(/"SYS" is not written; mmHg is guessed/);
  });

  it.each(['', 'one column\n1\n2', '\u0000\u0001'])('is none for %j', (text) => {
    expect(proposeForm(utf8(text))).toBeNull();
  });
});
