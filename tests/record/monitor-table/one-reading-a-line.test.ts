import { describe, expect, it } from 'vitest';
import { readingsOf } from '../../../src/vitals/channel.js';
import { meanPressure } from '../../../src/vitals/pressure.js';
import { Reading } from './reading.js';

const told = new Reading({
  time: { column: 'Time', written: 'HH:mm:ss' },
  missing: ['---'],
  'one reading a line': { 'names in': 'Name', 'values in': 'Value', 'units in': 'Unit' },
  readings: [
    { channel: 'heart rate', called: 'HR' },
    { channel: 'SpO2', called: 'Sat', missing: ['0'] },
    { channel: 'temperature', called: 'T1' },
    { written: 'systolic/diastolic (mean)', called: 'Cuff' },
  ],
  'not taken': ['PVC', 'Alarm'],
});
const TITLES = 'Time,Name,Value,Unit';

describe('a table with one reading a line', () => {
  it('is read by names, each line in its own unit, and the readings of one moment stand together', () => {
    expect(
      told.table(
        TITLES,
        '09:10:00,HR,104,bpm',
        '09:10:00,T1,100.4,°F',
        '09:15:00,HR,98,1/min',
        '09:15:00,T1,37.7,ºC',
        '09:15:00,Cuff,120/60 (80),mmHg',
      ),
    ).toEqual({
      channels: ['heart rate', 'temperature', 'systolic', 'diastolic', 'mean'],
      rows: [
        {
          line: 2,
          minute: 0,
          values: { 'heart rate': 104, temperature: 38 },
          lines: { 'heart rate': 2, temperature: 3 },
        },
        {
          line: 4,
          minute: 5,
          values: { 'heart rate': 98, temperature: 37.7, systolic: 120, diastolic: 60, mean: 80 },
          lines: { 'heart rate': 4, temperature: 5, systolic: 6, diastolic: 6, mean: 6 },
        },
      ],
    });
  });

  it('has the line of each reading for whoever traces it, and pressures of two lines make a mean', () => {
    const table = told
      .with({
        readings: [
          { channel: 'systolic', called: 'S' },
          { channel: 'diastolic', called: 'D' },
        ],
      })
      .table(TITLES, '09:10:00,S,120,mmHg', '09:10:00,D,60,mmHg', '09:15:00,S,110,mmHg');
    const [systolic, diastolic, mean] = (['systolic', 'diastolic', 'mean'] as const).map((one) =>
      readingsOf(table, one, 'mmHg', []),
    );
    expect(diastolic?.patient).toEqual([{ minute: 0, value: 60, line: 3 }]);
    expect(meanPressure(mean!, systolic!, diastolic!, []).patient).toEqual([
      { minute: 0, value: 80, line: 2, computed: true },
    ]);
  });

  it('may tell its names in turn or one below the other, the newest line first or last', () => {
    const expected = [
      [0, { 'heart rate': 104, SpO2: 97 }],
      [5, { 'heart rate': 98, SpO2: 99 }],
    ];
    const [a, b, c, d] = [
      '09:10:00,HR,104,',
      '09:15:00,HR,98,',
      '09:10:00,Sat,97,%',
      '09:15:00,Sat,99,%',
    ];
    const reading = told.with({
      readings: [
        { channel: 'heart rate', called: 'HR', unit: '/min' },
        { channel: 'SpO2', called: 'Sat' },
      ],
    });
    for (const lines of [
      [a, b, c, d],
      [a, c, b, d],
      [c, a, b, d],
      [c, d, a, b],
    ]) {
      expect(reading.rows(TITLES, ...(lines as string[]))).toEqual(expected);
      const back = reading.with({ 'newest first': 'yes' });
      expect(back.rows(TITLES, ...(lines as string[]).reverse())).toEqual(expected);
    }
  });

  it('has a cuff that is told late, with the time at which it began', () => {
    expect(
      told.rows(TITLES, '09:15:00,HR,98,bpm', '09:15:30,HR,99,bpm', '09:15:10,T1,37.7,C'),
    ).toEqual([
      [5, { 'heart rate': 98 }],
      [5 + 1 / 6, { temperature: 37.7 }],
      [5.5, { 'heart rate': 99 }],
    ]);
  });

  it('passes midnight in turn and name by name', () => {
    const late = new Reading(
      {
        time: { column: 'Time', written: 'HH:mm' },
        'one reading a line': { 'names in': 'Name', 'values in': 'Value' },
        readings: [
          { channel: 'heart rate', called: 'HR', unit: '/min' },
          { channel: 'SpO2', called: 'Sat', unit: '%' },
        ],
      },
      '2026-03-09T23:50',
    );
    const lines = ['23:55,HR,90', '00:05,HR,91', '23:55,Sat,98', '00:05,Sat,99'];
    const expected = [
      [5, { 'heart rate': 90, SpO2: 98 }],
      [15, { 'heart rate': 91, SpO2: 99 }],
    ];
    expect(late.rows('Time,Name,Value', ...lines)).toEqual(expected);
    expect(late.rows('Time,Name,Value', ...[0, 2, 1, 3].map((at) => lines[at] as string))).toEqual(
      expected,
    );
  });

  it('is refused where the clock shows an hour twice and the order does not tell which is meant', () => {
    const form = {
      time: { column: 'Time', written: 'HH:mm' },
      'one reading a line': { 'names in': 'Name', 'values in': 'Value' },
      readings: [
        { channel: 'heart rate', called: 'HR', unit: '/min' },
        { channel: 'SpO2', called: 'Sat', unit: '%' },
      ],
    };
    // In Chicago the clock goes from 02:00 back to 01:00 on this night.
    const night = new Reading(form, '2026-11-01T00:30');
    const problems = night.problems(
      'Time,Name,Value',
      '01:40,HR,90',
      '01:10,HR,91',
      '01:20,Sat,98',
    );
    expect(problems).toMatchObject([
      { line: 4, field: 'Time', expected: 'a time that the order of the lines settles' },
    ]);
  });

  it('leaves out what is not taken, lines without a reading, and a footer', () => {
    expect(
      told.rows(
        TITLES,
        '09:10:00,PVC,3,/min',
        '09:10:00,HR,---,bpm',
        '09:10:00,Sat,0,%',
        '09:12:00,Alarm,Sat low,',
        'no time,PVC,4,/min',
        '09:15:00,HR,98,bpm',
        'End of export',
      ),
    ).toEqual([[5, { 'heart rate': 98 }]]);
  });

  it('tells every name that it does not know at once, and how to leave them out', () => {
    const problems = told.problems(
      TITLES,
      '09:10:00,HR,104,bpm',
      '09:10:00,Hr,104,bpm',
      '09:10:00,ST-II,0.1,mV',
      '09:15:00,ST-II,0.1,mV',
    );
    expect(problems).toHaveLength(1);
    expect(problems).toMatchObject([
      {
        kind: 'a name of a reading that the form does not tell',
        line: 3,
        column: 10,
        field: 'Name',
        found: '"Hr", "ST-II"',
        mend: expect.stringMatching(/If "HR" is meant.*not taken: \["Hr", "ST-II"\]/),
      },
    ]);
  });

  it.each([
    ['09:10:00,HR,104,mmHg', { field: 'Unit', found: '"mmHg"', expected: 'heart rate in /min' }],
    [
      '09:10:00,T1,37.9,',
      { field: 'Unit', found: 'no unit', mend: 'Add "unit" to "T1" in the form "ward".' },
    ],
    ['09:10:00,Cuff,120/60 (80),psi', { kind: 'a reading without a known unit' }],
    ['09:10:00,HR,fast,bpm', { kind: 'a reading that is no number', field: 'Value', column: 13 }],
    ['09:10:00,HR,1040,bpm', { kind: 'an impossible reading', field: 'Value' }],
    ['9:10,HR,104,bpm', { kind: 'a line without its time', field: 'Time' }],
    ['09:10:00,,104,bpm', { field: 'Name', found: 'a value without a name' }],
    ['09:10:00,HR,104', { kind: 'a line with too many or too few cells' }],
    [TITLES, { kind: 'titles in the middle of a table' }],
    ['09:10:00,Cuff,60/120 (80),mmHg', { kind: 'pressures out of order' }],
  ])('tells of %j where it is wrong', (line, problem) => {
    expect(told.problems(TITLES, line)).toMatchObject([{ line: 2, ...problem }]);
  });

  it('refuses a name that tells two values at one time, or goes back, and takes one said twice', () => {
    const twice = '09:10:00,HR,104,bpm';
    expect(told.rows(TITLES, twice, '09:10:00,T1,38,C', twice)).toHaveLength(1);
    const cuff = ['09:10:00,Cuff,120/--- (80),mmHg', '09:10:00,Cuff,120/60 (80),mmHg'];
    expect(told.rows(TITLES, ...cuff)).toEqual([[0, { systolic: 120, diastolic: 60, mean: 80 }]]);
    expect(told.problems(TITLES, twice, '09:10:00,HR,99,bpm')).toMatchObject([
      { line: 3, expected: 'one line for each time' },
    ]);
    expect(told.problems(TITLES, twice, '09:09:00,HR,99,bpm')).toMatchObject([
      { line: 3, expected: 'a time later than on the line before' },
    ]);
  });

  it('that tells nothing is told', () => {
    expect(told.problems(TITLES, '09:10:00,PVC,3,/min')).toMatchObject([
      { kind: 'a table without lines' },
    ]);
    expect(told.problems('Time,Names,Value,Unit', '09:10:00,HR,104,bpm')).toMatchObject([
      { kind: 'columns that the form does not find', field: 'Name' },
    ]);
  });
});

describe('a form with one reading a line', () => {
  it.each([
    [{ columns: [{ channel: 'SpO2', column: 'Sat', unit: '%' }] }, 'columns'],
    [{ readings: [] }, 'readings'],
    [{ 'one reading a line': { 'names in': 'Name', 'values in': 'Value' } }, 'readings.0'],
    [{ 'one reading a line': undefined }, 'readings'],
    [{ 'one reading a line': undefined, readings: [] }, 'not taken'],
    [{ 'one reading a line': undefined, readings: [], 'not taken': [] }, 'columns'],
    [{ 'not taken': ['HR'] }, 'readings.0.called'],
    [
      { 'one reading a line': { 'names in': 2, 'values in': 3, 'units in': 4 } },
      'one reading a line',
    ],
    [{ readings: [{ channel: 'mean', called: 'M', unit: 'psi' }] }, 'readings.0.unit'],
    [{ readings: [{ called: 'M' }] }, 'readings.0'],
    [
      {
        readings: [
          { channel: 'mean', called: 'M' },
          { channel: 'mean', called: 'N' },
        ],
      },
      'readings.1.channel',
    ],
    [
      {
        readings: [
          { channel: 'mean', called: 'M' },
          { channel: 'SpO2', called: 'M' },
        ],
      },
      'readings.1.called',
    ],
  ])('is refused where it contradicts itself: %j', (parts, path) => {
    expect(told.with(parts).refusals()).toContainEqual(expect.objectContaining({ path }));
  });
});
