import { describe, expect, it } from 'vitest';
import { Reading } from './reading.js';

const ward = new Reading({
  time: { column: 'Time', written: 'HH:mm' },
  columns: [{ channel: 'heart rate', column: 'HR', unit: '/min' }],
});

describe('a table of several patients', () => {
  it.each([
    [['Patient,Time,HR', 'Larch,09:10,90', 'Larch,09:15,91', 'Fern,09:20,130'], 4, 'Patient'],
    [['Time,HR,Tier-ID', '09:10,90,7', '09:12,130,8', '09:15,91,7'], 3, 'Tier-ID'],
    [
      ['Time,HR', '09:10,90', 'Patient: Larch', '09:15,91', 'Patient: Fern', '09:20,130'],
      5,
      'Patient',
    ],
    [['Time,HR', 'Paciente,Larch', '09:10,90', 'Paciente,Fern', '09:15,91'], 4, 'Paciente'],
    [['Bed,Time,HR', '1,09:10,90', '2,09:12,130', '1,09:15,91'], 3, 'Bed'],
    [['Time,HR', '"Patient","Larch"', '09:10,90', '"Patient","Fern"', '09:15,91'], 4, 'Patient'],
  ])('is refused where the second begins: %j', (lines, line, field) => {
    expect(ward.problems(...lines)).toMatchObject([
      { kind: 'readings of several patients', line, field },
    ]);
  });

  it('is not one whose patient is named once, again, or not on every line', () => {
    for (const lines of [
      ['Patient,Time,HR', 'Larch,09:10,90', ',09:15,91', 'Larch,09:20,92'],
      ['Time,HR', '09:10,90', 'Patient: Larch', '09:15,91', 'Patient: Larch'],
      ['Time,HR,Patient temp', '09:10,90,', '09:15,91,'],
    ]) {
      expect(ward.rows(...lines)[0]).toEqual([0, { 'heart rate': 90 }]);
    }
  });

  it('is told of lines of fixed width, which cut such a line in the midst of its words', () => {
    const fixed = ward.with({ 'column widths': [5, 6] });
    const lines = [
      'Patient: Larch',
      'Time     HR',
      '09:10    90',
      '',
      'Patient: Fern',
      '09:15   130',
    ];
    expect(fixed.with({ 'titles on line': 2 }).problems(...lines)).toMatchObject([
      { kind: 'readings of several patients', line: 5, found: '"Fern", after "Larch"' },
    ]);
  });

  it('may be one that was moved', () => {
    const [problem] = ward.problems('Time,HR,Room', '09:10,90,4', '09:15,91,5');
    expect(problem?.mend).toContain('If one patient was moved');
  });

  it('is not told by a column that holds a measurement of the patient', () => {
    expect(ward.rows('Time,HR,Patient temperature', '09:10,90,38.1', '09:15,91,38.0')).toHaveLength(
      2,
    );
  });

  it('is refused where its titles stand a second time, as another patient may begin there', () => {
    expect(ward.problems('Time,HR', '09:10,90', '', 'Time,HR', '09:45,130')).toMatchObject([
      { kind: 'titles in the middle of a table', line: 4 },
    ]);
  });
});
