import { describe, expect, it } from 'vitest';
import { Reading } from './reading.js';

const said = (inPercent: object | undefined, unit = '%') =>
  new Reading({
    time: { column: 'Time', written: 'HH:mm' },
    columns: [{ channel: 'EtCO2', column: 'CO2', unit }],
    ...(inPercent && { 'EtCO2 in percent': inPercent }),
  });
const read = (inPercent: object, cell = '5.0') =>
  said(inPercent).table('Time,CO2', `09:10,${cell}`).rows[0]?.values.EtCO2;

describe('CO2 in volume percent', () => {
  it('is a part of the pressure of the air (Dalton), less water vapor where the gas is dry', () => {
    const air = { 'barometric pressure': '760 mmHg' };
    expect(read({ of: 'moist gas', ...air })).toBe(38);
    // 5 % of 760 - 47 mmHg.
    expect(read({ of: 'dry gas', ...air })).toBe(35.65);
    expect(read({ of: 'dry gas', ...air }, '0')).toBe(0);
  });

  it.each([
    ['1013.25 hPa', 760],
    ['101.325 kPa', 760],
    ['745 mmHg', 745],
    ['62 kPa', 465.04],
  ])('takes the pressure in %s (NIST SP 811: 1 mmHg = 133.3224 Pa)', (written, air) => {
    expect(read({ of: 'moist gas', 'barometric pressure': written }, '10')).toBeCloseTo(
      air / 10,
      1,
    );
  });

  it.each([
    [undefined, 'columns.0.unit'],
    [{ of: 'dry gas' }, 'EtCO2 in percent.barometric pressure'],
    [{ 'barometric pressure': '745 mmHg' }, 'EtCO2 in percent.of'],
    [{ of: 'gas', 'barometric pressure': '745 mmHg' }, 'EtCO2 in percent.of'],
    [{ of: 'dry gas', 'barometric pressure': '745' }, 'EtCO2 in percent.barometric pressure'],
    [{ of: 'dry gas', 'barometric pressure': '1013 mmHg' }, 'EtCO2 in percent.barometric pressure'],
    [{ of: 'dry gas', 'barometric pressure': '101 hPa' }, 'EtCO2 in percent.barometric pressure'],
  ])('is refused without pressure and gas, which are never guessed: %j', (inPercent, path) => {
    expect(
      said(inPercent)
        .refusals()
        .map((one) => one.path),
    ).toContain(path);
  });

  it('leaves a column in mmHg or kPa as it is', () => {
    const air = { of: 'dry gas', 'barometric pressure': '620 mmHg' };
    expect(said(air, 'mmHg').table('Time,CO2', '09:10,38').rows[0]?.values.EtCO2).toBe(38);
  });

  it('is read by the unit of its line where each line tells one reading', () => {
    const told = (inPercent: object) =>
      new Reading({
        time: { column: 'Time', written: 'HH:mm' },
        'one reading a line': { 'names in': 'Name', 'values in': 'Value', 'units in': 'Unit' },
        readings: [{ channel: 'EtCO2', called: 'CO2' }],
        ...inPercent,
      });
    const lines = ['Time,Name,Value,Unit', '09:10,CO2,5.0,vol%', '09:15,CO2,38,mmHg'];
    const air = { of: 'moist gas', 'barometric pressure': '760 mmHg' };
    expect(told({ 'EtCO2 in percent': air }).rows(...lines)).toEqual([
      [0, { EtCO2: 38 }],
      [5, { EtCO2: 38 }],
    ]);
    expect(told({}).problems(...lines)).toMatchObject([
      { line: 2, field: 'Unit', mend: expect.stringContaining('EtCO2 in percent: { of: dry gas') },
    ]);
  });
});
