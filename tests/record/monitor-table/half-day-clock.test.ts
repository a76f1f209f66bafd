import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Reading } from './reading.js';

const form = {
  time: { column: 'Time', written: 'h:mm' },
  columns: [{ channel: 'heart rate', column: 'HR', unit: '/min' }],
};
const at = (begin: string, ahead = 0) => new Reading(form, `2026-03-09T${begin}`, ahead);
const minutes = (reading: Reading, ...times: string[]) =>
  reading.table('Time,HR', ...times.map((time) => `${time},90`)).rows.map(({ minute }) => minute);
const problems = (reading: Reading, ...times: string[]) =>
  reading.problems('Time,HR', ...times.map((time) => `${time},90`));

describe('a clock of twelve hours without AM or PM', () => {
  it('passes noon and midnight from the start of anesthesia on', () => {
    expect(minutes(at('11:40'), '11:45', '12:05', '12:58', '1:02')).toEqual([5, 25, 78, 82]);
    expect(minutes(at('23:40'), '11:45', '12:05', '12:58', '1:02')).toEqual([5, 25, 78, 82]);
    expect(minutes(at('13:10'), '1:05', '1:15')).toEqual([-5, 5]);
    expect(minutes(at('00:05'), '11:58', '12:10')).toEqual([-7, 5]);
  });

  it('gives the minutes of any surgery back', () => {
    const clock = (minute: number) =>
      `${((Math.floor(minute / 60) + 11) % 12) + 1}:${String(minute % 60).padStart(2, '0')}`;
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 24 * 60 - 1 }),
        fc.integer({ min: -179, max: 179 }),
        fc.array(fc.integer({ min: 1, max: 359 }), { maxLength: 3 }),
        (begin, first, steps) => {
          const told = [first];
          for (const step of steps) told.push((told.at(-1) as number) + step);
          const two = (count: number) => String(count).padStart(2, '0');
          const start = at(`${two(Math.floor(begin / 60))}:${two(begin % 60)}`);
          const times = told.map((minute) => clock((begin + minute + 24 * 60) % (24 * 60)));
          expect(minutes(start, ...times)).toEqual(told);
        },
      ),
      { numRuns: 100, seed: 5 },
    );
  });

  it('takes the day where the table tells it', () => {
    const dated = (begin: string) =>
      new Reading({ ...form, time: { column: 'Time', written: 'M/d/yyyy h:mm' } }, begin);
    const lines = ['3/9/2026 11:58', '3/10/2026 12:03'];
    expect(minutes(dated('2026-03-09T23:50'), ...lines)).toEqual([8, 13]);
    expect(minutes(dated('2026-03-09T11:50'), '3/9/2026 11:58', '3/9/2026 12:03')).toEqual([8, 13]);
    expect(problems(dated('2026-03-10T11:50'), ...lines)).toHaveLength(1);
  });

  it('is not settled where the table begins far from the start of anesthesia, and says what to state', () => {
    expect(problems(at('09:10'), '2:30', '2:35')).toMatchObject([
      {
        kind: 'a line without its time',
        line: 2,
        column: 1,
        field: 'Time',
        found: '"2:30"',
        expected: expect.stringContaining('09:10 on 2026-03-09'),
        mend: expect.stringMatching(/hours of 24 or with AM and PM.*clock of vitals: 2 h ahead/),
      },
      { line: 3 },
    ]);
  });

  it('is settled by a clock of which the record says how far it is off', () => {
    // The record takes the difference off afterwards.
    expect(minutes(at('09:10', 320), '2:30', '2:35')).toEqual([320, 325]);
  });

  it('that steps back, also over noon, is told and not taken for half a day', () => {
    expect(problems(at('11:40'), '12:02', '11:59')).toMatchObject([
      { line: 3, expected: 'a time later than on the line before' },
    ]);
    expect(problems(at('09:10'), '9:10', '9:05')).toHaveLength(1);
  });

  it('is not settled six hours after the line before', () => {
    expect(problems(at('09:10'), '9:10', '3:10')).toMatchObject([{ line: 3, found: '"3:10"' }]);
  });

  it('goes on through a change of the clock', () => {
    const night = new Reading(form, '2026-11-01T00:30');
    expect(minutes(night, '12:40', '1:50', '1:10', '2:10')).toEqual([10, 80, 100, 160]);
  });

  it('is hinted at where a form with hours of 24 meets it', () => {
    const whole = at('12:30').with({ time: { column: 'Time', written: 'H:mm' } });
    expect(problems(whole, '12:58', '1:03', '1:08', '1:13', '1:18')).toMatchObject([
      { line: 3, mend: expect.stringContaining('write h for H in "written"') },
    ]);
  });

  it('reads one reading a line in turn, and refuses what the order does not settle', () => {
    const told = at('11:50').with({
      columns: [],
      'one reading a line': { 'names in': 'Name', 'values in': 'Value' },
      readings: [
        { channel: 'heart rate', called: 'HR', unit: '/min' },
        { channel: 'SpO2', called: 'Sat', unit: '%' },
      ],
    });
    const lines = ['11:55,HR,90', '11:55,Sat,97', '1:05,HR,92', '1:05,Sat,98'];
    const expected = [
      [5, { 'heart rate': 90, SpO2: 97 }],
      [75, { 'heart rate': 92, SpO2: 98 }],
    ];
    expect(told.rows('Time,Name,Value', ...lines)).toEqual(expected);
    const blocks = [0, 2, 1, 3].map((line) => lines[line] as string);
    expect(told.rows('Time,Name,Value', ...blocks)).toEqual(expected);
    const long = ['11:55,HR,90', '4:05,HR,92', '9:05,HR,92', '11:55,Sat,97'];
    expect(told.problems('Time,Name,Value', ...long)[0]).toMatchObject({
      kind: 'a line without its time',
      line: 5,
    });
  });
});
