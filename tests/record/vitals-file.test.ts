import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { readVitals } from '../../src/record/vitals-file.js';
import { accepted, problemsOf } from './sample.js';

const read = (text: string, begin = '2026-03-09T09:10') =>
  readVitals(
    text,
    'vitals.csv',
    Temporal.PlainDateTime.from(begin).toZonedDateTime('America/Chicago'),
  );
const rows = (text: string, begin?: string) => accepted(read(text, begin)).rows;
const minutes = (text: string, begin?: string) => rows(text, begin).map(({ minute }) => minute);
const problems = (text: string) => problemsOf(read(text));

describe('time', () => {
  it('counts a clock from the start of anesthesia, also before it', () => {
    expect(minutes('clock,SpO2 [%]\n09:05,97\n09:10,98\n09:15:30,98')).toEqual([-5, 0, 5.5]);
  });

  it.each([
    ['2026-03-09T09:15', '2026-03-09 09:20:30'],
    ['2026-03-09T14:15Z', '2026-03-09T14:20:30.000Z'],
    ['2026-03-09T09:15-05:00', '2026-03-09T15:20:30+01:00'],
  ])('takes day and time as ISO 8601 writes them: %s', (one, other) => {
    expect(minutes(`clock,SpO2 [%]\n${one},97\n${other},98`)).toEqual([5, 10.5]);
  });

  it.each(['2026-02-30T09:15', '2026-03-09T25:15Z', '2026-03-09T09:15+01'])(
    'takes no day or time that is none: %s',
    (cell) => {
      expect(problems(`clock,SpO2 [%]\n${cell},97`)).toMatchObject([
        { kind: 'a line without its time', found: `"${cell}"` },
      ]);
    },
  );

  it('says once that no line has a clock that it understands', () => {
    expect(problems('clock,SpO2 [%]\n9.15,97\n9.20,98\n9.25,98\n9.30,98')).toMatchObject([
      {
        line: 2,
        found: '"9.15", and the like on 3 more lines',
        mend: expect.stringContaining('thrice table FILE'),
      },
    ]);
  });

  it('takes elapsed minutes as they are', () => {
    expect(minutes('elapsed [min],SpO2 [%]\n-2,97\n0,98\n2.5,98')).toEqual([-2, 0, 2.5]);
  });

  it('goes on over midnight', () => {
    const table = 'clock,SpO2 [%]\n23:40,97\n23:55,98\n00:10,98\n00:25,99';
    expect(minutes(table, '2026-03-09T23:40')).toEqual([0, 15, 30, 45]);
  });

  it('starts after midnight where the anesthesia began before it', () => {
    expect(minutes('clock,SpO2 [%]\n00:05,97\n00:10,98', '2026-03-09T23:50')).toEqual([15, 20]);
  });

  it('starts before midnight where the anesthesia began after it', () => {
    const table = 'clock,SpO2 [%]\n23:55,97\n00:00,97\n00:15,98';
    expect(minutes(table, '2026-03-09T00:05')).toEqual([-10, -5, 10]);
  });

  const MENDS: Readonly<Record<string, string>> = {
    'a time later than on the line before':
      'Sort the lines by their time, mend this one, or take the line out.',
    'one line for each time': 'Keep one line of each time, or export the table with seconds.',
  };

  it.each([
    ['clock,SpO2 [%]\n09:15,97\n09:10,98', '"09:10"', 'a time later than on the line before'],
    ['clock,SpO2 [%]\n09:15,97\n09:15,98', '"09:15"', 'one line for each time'],
    ['clock,SpO2 [%]\n09:10,97\n9:15,98', '"9:15"', 'a time such as 09:45 or 2026-03-09T09:45'],
    ['clock,SpO2 [%]\n09:10,97\n25:15,98', '"25:15"', 'a time such as 09:45 or 2026-03-09T09:45'],
    ['clock,SpO2 [%]\n09:10,97\n,98', '""', 'a time such as 09:45 or 2026-03-09T09:45'],
    ['elapsed [min],SpO2 [%]\n5,97\n5,98', '"5"', 'one line for each time'],
    ['elapsed [min],SpO2 [%]\n0,97\n5 min,98', '"5 min"', 'minutes such as 5 or 2.5'],
  ])('refuses the last line of %j', (text, found, expected) => {
    expect(problems(text)).toEqual([
      {
        kind: 'a line without its time',
        file: 'vitals.csv',
        line: 3,
        column: 1,
        end: found.length - 1,
        field: text.split(',')[0],
        found,
        expected,
        mend: MENDS[expected] ?? 'Mend the time on this line, or take the line out.',
      },
    ]);
  });
});

describe('units', () => {
  it('keeps temperature in °C and reads °F', () => {
    const [row] = rows('clock,temperature [°F]\n09:10,98.6');
    expect(row?.values.temperature).toBeCloseTo(37, 10);
  });

  it('keeps pressure in mmHg and reads kPa at 133.322 4 Pa to one mmHg (NIST SP 811, appendix B.8)', () => {
    const [row] = rows('clock,systolic [kPa],mean [kPa],EtCO2 [kPa]\n09:10,16,10.666,5');
    // 16 kPa = 16 000 / 133.322 4 mmHg.
    expect(row?.values.systolic).toBeCloseTo(120.0099, 2);
    expect(row?.values.mean).toBeCloseTo(80.0016, 2);
    expect(row?.values.EtCO2).toBeCloseTo(37.5031, 2);
  });

  it.each([
    [
      'heart rate [Hz]',
      'the unit "Hz"',
      'heart rate in /min',
      'Write the title as: heart rate [/min]',
    ],
    [
      'systolic [psi]',
      'the unit "psi"',
      'systolic in mmHg or kPa',
      'Write the title as: systolic [mmHg]',
    ],
    [
      'temperature',
      'no unit in the title',
      'temperature in C or F',
      'Write the title as: temperature [C]',
    ],
  ])('refuses the title "%s"', (title, found, expected, mend) => {
    expect(problems(`clock,${title}\n09:10,1`)).toEqual([
      {
        kind: 'a column without a known unit',
        file: 'vitals.csv',
        line: 1,
        column: 7,
        end: 7 + title.length,
        field: title,
        found,
        expected,
        mend,
      },
    ]);
  });
});

describe('columns', () => {
  it('knows the channels by their titles, and suggests the one that was meant', () => {
    expect(problems('clock,hart rate [/min]\n09:10,90')[0]).toMatchObject({
      line: 1,
      field: 'hart rate [/min]',
      found: 'the column "hart rate"',
      mend: 'Did you mean "heart rate"?',
    });
  });

  it.each([
    ['SpO2 [%]\n97', 'no column of time'],
    ['clock,elapsed [min],SpO2 [%]\n09:10,0,97', 'a second column of time'],
    ['clock,SpO2 [%],SpO2 [%]\n09:10,97,98', 'a second column "SpO2"'],
    ['elapsed,SpO2 [%]\n0,97', '"elapsed"'],
    ['elapsed [h],SpO2 [%]\n0,97', '"elapsed [h]"'],
  ])('refuses the header of %j', (text, found) => {
    expect(problems(text).map((problem) => [problem.line, problem.found])).toEqual([[1, found]]);
  });

  it('leaves a missing reading out, written as nothing or as a dash', () => {
    expect(rows('clock,SpO2 [%],breaths [/min]\n09:10,,-')[0]?.values).toEqual({});
  });
});

describe('readings', () => {
  it.each([
    ['SpO2 [%]', '101', 'between 0 and 100 %'],
    ['temperature [°C]', '98.6', 'between 5 and 45 C'],
    ['heart rate [/min]', '1040', 'between 0 and 500 /min'],
    ['systolic [mmHg]', '-5', 'between 0 and 350 mmHg'],
    ['mean [kPa]', '74', 'between 0 and 320 mmHg'],
  ])('refuses what no instrument shows: %s of %s', (title, cell, expected) => {
    expect(problems(`clock,${title}\n09:10,${cell}`)).toMatchObject([
      {
        line: 2,
        field: title,
        expected,
        mend: 'Check the digits and the unit in the header. Empty the cell if there was no reading.',
      },
    ]);
  });

  it.each([
    ['60,80,75', 'diastolic 75 above systolic 60', 'mean 80 above systolic 60'],
    ['110,60,75', 'diastolic 75 above mean 60', ''],
    ['110,,120', 'diastolic 120 above systolic 110', ''],
  ])('refuses pressures out of order: %s', (cells, ...founds) => {
    const [problem] = problems(
      `clock,systolic [mmHg],mean [mmHg],diastolic [mmHg]\n09:10,${cells}`,
    );
    expect(problem?.line).toBe(2);
    expect(founds).toContain(problem?.found);
  });

  it.each([
    ['"37,8"', 'Write 37.8.'],
    ['37.8C', 'Mend or empty the cell.'],
    ['n/a', 'Mend or empty the cell.'],
    ['1e2', 'Mend or empty the cell.'],
  ])('refuses the cell %s', (cell, mend) => {
    expect(problems(`clock,temperature [°C]\n09:10,${cell}`)).toMatchObject([
      { line: 2, field: 'temperature [°C]', mend },
    ]);
  });

  it('tells a decimal comma from a missing cell by the number of columns', () => {
    expect(problems('clock,temperature [°C]\n09:10,37,8\n09:15')).toMatchObject([
      {
        line: 2,
        found: '3 columns',
        mend: 'A decimal comma splits a number in two: write 37.8, not 37,8.',
      },
      {
        line: 3,
        found: '1 columns',
        mend: 'Leave a cell empty where there is no reading, but keep its separator.',
      },
    ]);
  });

  it('lists every problem of the table at once', () => {
    expect(
      problems('clock,SpO2 [%],breaths [/min]\n09:10,120,x\n09:05,97,10\n09:10,97').map(
        ({ line }) => line,
      ),
    ).toEqual([2, 2, 3, 4]);
  });
});

describe('the form of the file', () => {
  it('takes a byte order mark, CRLF, blank lines and spaces, and keeps the true line', () => {
    const text = '\uFEFFclock, SpO2 [%]\r\n09:10, 97\r\n\r\n09:15 ,98\r\n';
    expect(rows(text).map(({ line, minute, values }) => [line, minute, values.SpO2])).toEqual([
      [2, 0, 97],
      [4, 5, 98],
    ]);
  });

  it('refuses semicolons, an empty file and an open quote', () => {
    expect(problems('clock;SpO2 [%]\n09:10;97')).toMatchObject([
      { line: 1, found: 'columns separated by semicolons' },
    ]);
    expect(problems('')).toMatchObject([{ line: 1, found: 'an empty file' }]);
    expect(problems('clock,SpO2 [%]\n09:10,"97\n09:15,98')).toMatchObject([
      { file: 'vitals.csv', line: 2, column: 7, kind: 'quotes that do not pair up' },
    ]);
  });

  it('takes a header without readings as a table without rows', () => {
    expect(accepted(read('clock,SpO2 [%]\n'))).toEqual({ channels: ['SpO2'], rows: [] });
  });
});

it('names a title of thousands of characters by its beginning', () => {
  const [problem] = problems(`clock,${'A'.repeat(5000)}\n09:10,97`);
  expect(problem?.found.length).toBeLessThan(100);
});
