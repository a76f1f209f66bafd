import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { proposeForm } from '../../../src/record/monitor-table/propose-form.js';
import { readTable } from '../../../src/record/monitor-table/read-table.js';
import { tableForm } from '../../../src/record/monitor-table/table-form.js';
import { accepted, problemsOf } from '../sample.js';

const begin = Temporal.PlainDateTime.from('2026-03-09T09:10').toZonedDateTime('America/Chicago');
const utf8 = (text: string) => new TextEncoder().encode(text);
const proposed = (table: string | Uint8Array) =>
  accepted(proposeForm(typeof table === 'string' ? utf8(table) : table, 'export.csv', 'ward'));
/** What arrives of a table that is read by the form which is proposed for it. */
const arrives = (table: string | Uint8Array) => {
  const bytes = typeof table === 'string' ? utf8(table) : table;
  const form = tableForm.parse(proposed(bytes).form);
  return accepted(readTable(bytes, 'export.csv', begin, form)).rows.map(({ minute, values }) => [
    minute,
    values,
  ]);
};

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
          const { form: told } = accepted(proposeForm(bytes, 'a.csv', 'sample'));
          const taken = tableForm.parse(told);
          expect(told['readings from line']).toBeUndefined();
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
    const { form } = proposed([...preamble, 'Time,HR', '09:45,104', '09:50,98', ''].join('\n'));
    expect(form).toMatchObject({ 'titles on line': 21, columns: [{ channel: 'heart rate' }] });
  });

  it('takes units from a line below the titles, and begins to read after it', () => {
    expect(proposed('Time,T1,SpO2\nhh:mm,F,%\n09:45,99.5,98\n09:50,99.1,99\n')).toMatchObject({
      form: {
        'readings from line': 3,
        time: { column: 'Time', written: 'H:mm' },
        columns: [
          { channel: 'temperature', unit: 'F' },
          { channel: 'SpO2', unit: '%' },
        ],
      },
      doubts: [],
    });
  });

  it('begins to read at the first time, whether its sensors were on or not', () => {
    const table = 'Time,HR,SpO2\n09:10,lead off,no sensor\n09:15,104,98\n09:20,98,99';
    const { form, doubts } = proposed(table);
    expect(form['readings from line']).toBeUndefined();
    expect(form.missing).toEqual(['lead off', 'no sensor']);
    expect(doubts).toEqual([expect.stringContaining('(lead off no sensor)')]);
  });

  it('takes a cell with a number and a sign for no missing reading', () => {
    const { form, doubts } = proposed(
      'Time|Pulse|PAS/PAD (PAM)|T1 °C\n9:45|104|120/60 (80)|38.1\n9:50|98*|118/58 (78)|38.0\n',
    );
    expect(form.missing).toBeUndefined();
    expect(form.columns).toMatchObject([
      { channel: 'heart rate' },
      { written: 'systolic/diastolic (mean)', column: 'PAS/PAD (PAM)' },
      { channel: 'temperature' },
    ]);
    expect(doubts).toEqual([
      expect.stringContaining('"Pulse" has cells with more than a number (98*)'),
      expect.stringContaining('the unit of "PAS/PAD (PAM)" is not written'),
    ]);
  });

  it.each([
    ['120/60 (80)', '118/--(77)', { systolic: 120, diastolic: 60, mean: 80 }],
    ['120/60 [80]', '118/-- [77]', { systolic: 120, diastolic: 60, mean: 80 }],
    ['120 / 60 / 80', '118 / -- / 77', { systolic: 120, diastolic: 60, mean: 80 }],
    ['120/80/60', '118/77/--', { systolic: 120, diastolic: 60, mean: 80 }],
    ['80 (120/60)', '77 (118/--)', { systolic: 120, diastolic: 60, mean: 80 }],
    ['120/60', '118/--', { systolic: 120, diastolic: 60 }],
  ])('reads the pressures of one cell, %j, with one of them missing', (cell, other, values) => {
    const rows = arrives(`Time,HR,NIBP\n09:15,104,${cell}\n09:20,98,${other}\n09:25,97,---\n`);
    const { diastolic: _, ...left } = values;
    expect(rows).toEqual([
      [5, { 'heart rate': 104, ...values }],
      [10, { 'heart rate': 98, ...left, systolic: 118, ...('mean' in left && { mean: 77 }) }],
      [15, { 'heart rate': 97 }],
    ]);
  });

  it('quotes no more of a long cell than its beginning', () => {
    const table = `Time,HR\n09:15,104${'x'.repeat(5000)} 7\n09:20,98\n`;
    for (const doubt of proposed(table).doubts) expect(doubt.length).toBeLessThan(300);
  });

  it.each([
    ['no title of a pressure', 'I:E', '2/1'],
    ['a venous pressure', 'CVP', '12/6 (8)'],
    ['a mean outside the two', 'NIBP', '120/60 (140)'],
  ])('takes two numbers for no pressure under %s', (_, title, cell) => {
    const { form, leftOver } = proposed(`Time,HR,${title}\n09:15,104,${cell}\n09:20,98,${cell}\n`);
    expect(form.columns).toHaveLength(1);
    expect(leftOver).toEqual([title]);
  });

  it('takes the pressures of one cell or those of columns, and tells which', () => {
    const { form, doubts } = proposed(
      'Time,NIBP,IBP sys,IBP dia\n09:15,120/60 (80),125,66\n09:20,118/58 (78),124,65\n',
    );
    expect(form.columns).toMatchObject([{ written: 'systolic/diastolic (mean)', column: 'NIBP' }]);
    expect(doubts).toContainEqual('"NIBP" is taken for systolic, and not "IBP sys"');
  });

  it('guesses kilopascals where no patient has so few millimetres of mercury', () => {
    expect(
      proposed('Date,Time,EtCO2,NIBP-S,NIBP-M\n9.3.26,9:45,5.3,14.1,9.8\n9.3.26,9:50,5.1,13.9,9.6')
        .form,
    ).toMatchObject({
      day: { column: 'Date', written: 'd.M.yy' },
      columns: [{ unit: 'kPa' }, { unit: 'kPa' }, { unit: 'kPa' }],
    });
    expect(proposed('Time,EtCO2,NIBP-S\n9:45,41,110\n9:50,39,112\n').form).toMatchObject({
      columns: [{ unit: 'mmHg' }, { unit: 'mmHg' }],
    });
  });

  it('tells what it guessed and what it left over', () => {
    const { form, leftOver, doubts } = proposed(
      'Date,Time,SYS,DIA,MAP,Room\n03/04/2026,09:10,120,70,---,4\n03/05/2026,09:15,118,68,84,4',
    );
    // Two days in a row, and not two months.
    expect(form).toMatchObject({
      day: { column: 'Date', written: 'M/d/yyyy' },
      time: { column: 'Time', written: 'H:mm' },
      missing: ['---'],
    });
    expect(leftOver).toEqual(['Room']);
    expect(doubts.join('\n')).toMatch(/may also be written d\/M\/yyyy: see which is the day/);
    expect(doubts.join('\n')).toMatch(/"SYS" is not written; mmHg is guessed/);
  });

  it.each(['', 'one column\n1\n2', '\u0000\u0001', 'Time,HR', '09:15,104\n09:20,98'])(
    'is none for %j',
    (text) => {
      expect(problemsOf(proposeForm(utf8(text), 'export.csv', 'ward'))).toMatchObject([
        { kind: 'a table without a form that can be proposed', file: 'export.csv' },
      ]);
    },
  );

  it('reads numbers with their units in the cells', () => {
    const table = 'Time,HR,Temp\n09:15,104 bpm,37.9 °C\n09:20,-- bpm,37.7 °C\n';
    expect(proposed(table).form.columns).toEqual([
      { written: 'heart rate bpm', column: 'HR', unit: '/min' },
      { written: 'temperature °C', column: 'Temp', unit: 'C' },
    ]);
    expect(arrives(table)).toEqual([
      [5, { 'heart rate': 104, temperature: 37.9 }],
      [10, { temperature: 37.7 }],
    ]);
  });

  it('reads one reading a line, by their names', () => {
    const table = [
      'Time,Parameter,Value,Unit,Limit',
      '09:15,HR,104,bpm,60',
      '09:15,NIBP,120/60 (80),mmHg,90',
      '09:15,T1,100.4,°F,90',
      '09:15,PVC/min,0,/min,5',
      '09:20,HR,---,bpm,60',
      '09:20,CO2 et,5.0,%,4',
      '09:20,RR,612,ms,900',
      '09:20,SpO2,98,%,90',
    ].join('\n');
    expect(arrives(table)).toEqual([
      [5, { 'heart rate': 104, systolic: 120, diastolic: 60, mean: 80, temperature: 38 }],
      [10, { SpO2: 98 }],
    ]);
    const { form, doubts, leftOver } = proposed(table);
    expect(form).toMatchObject({
      'one reading a line': { 'names in': 'Parameter', 'values in': 'Value', 'units in': 'Unit' },
      readings: [
        { channel: 'heart rate', called: 'HR' },
        { written: 'systolic/diastolic (mean)', called: 'NIBP' },
        { channel: 'temperature', called: 'T1' },
        { channel: 'SpO2', called: 'SpO2' },
      ],
      'not taken': ['PVC/min', 'CO2 et', 'RR'],
    });
    expect(form.readings?.every(({ unit }) => unit === undefined)).toBe(true);
    expect(leftOver).toEqual(['Limit']);
    expect(doubts).toEqual([
      '"Value" is taken for the values, and not "Limit"',
      expect.stringContaining('"CO2 et" is told in %, which is read only where the form says'),
      '"RR" is told in ms, which no form reads for breaths',
      expect.stringContaining('(---)'),
    ]);
  });

  it('gives each name its unit where the lines tell none, or in words of their own', () => {
    const table = 'Zeit;Name;Wert;Einheit\n09:15;HF;104;\n09:15;T;37,9;Grad\n09:20;T;37,8;Grad\n';
    expect(proposed(table)).toMatchObject({
      form: {
        'one reading a line': { 'names in': 'Name', 'values in': 'Wert' },
        readings: [
          { called: 'HF', unit: '/min' },
          { called: 'T', unit: 'C' },
        ],
      },
      doubts: [
        expect.stringMatching(/"Einheit" tells units that are not understood \(Grad\).*whatever/),
        'the unit of "T" is written "Grad"; C is guessed',
      ],
    });
    expect(arrives(table)).toEqual([
      [5, { 'heart rate': 104, temperature: 37.9 }],
      [10, { temperature: 37.8 }],
    ]);
  });

  it('takes no name of two units where it cannot tell them apart', () => {
    const table =
      'Time;Name;Value;Unit\n09:15;HR;104;bpm\n09:15;T;37.9;Grad C\n09:20;T;99.8;Grad F\n';
    expect(proposed(table)).toMatchObject({
      form: { readings: [{ called: 'HR', unit: '/min' }], 'not taken': ['T'] },
      doubts: [expect.anything(), expect.stringContaining('"T" is told in Grad C and Grad F')],
    });
  });

  it('cuts lines without a sign between columns at the places where all have a space', () => {
    const table = [
      'Bed 4',
      '',
      'Date       Time       HR  SpO2  NIBP        Temp °C',
      '09.03.2026 09:15:00   98    97  120/60 (80)    37.9',
      '09.03.2026 09:20:00  104        --             37.8',
      '09.03.2026 09:25:00    -    98  118/58 (78)    37.7',
    ].join('\n');
    const { form, doubts } = proposed(table);
    expect(form['between columns']).toBeUndefined();
    expect(doubts.filter((doubt) => !/unit of "NIBP"/.test(doubt))).toEqual([
      expect.stringContaining('the widths of columns are those of this sample'),
      'cells without a number (--) are taken for missing readings',
    ]);
    expect(arrives(table)).toEqual([
      [
        5,
        { 'heart rate': 98, SpO2: 97, systolic: 120, diastolic: 60, mean: 80, temperature: 37.9 },
      ],
      [10, { 'heart rate': 104, temperature: 37.8 }],
      [15, { SpO2: 98, systolic: 118, diastolic: 58, mean: 78, temperature: 37.7 }],
    ]);
  });

  it('takes hours that go from 12 to 1 for those of a clock of twelve, and says so', () => {
    const table = (times: readonly string[]) =>
      `Time,HR\n${times.map((time) => `${time},90`).join('\n')}`;
    expect(proposed(table(['11:50', '12:50', '1:10']))).toMatchObject({
      form: { time: { written: 'h:mm' } },
      doubts: [expect.stringContaining('goes from 12 to 1 without AM or PM')],
    });
    expect(
      proposed(table(['01:10', '12:50', '12:40', '12:30'].map((time) => `2026-03-09 ${time}`)))
        .form,
    ).toMatchObject({ time: { written: 'yyyy-MM-dd hh:mm' }, 'newest first': 'yes' });
    for (const times of [
      ['11:50', '12:50', '13:10'],
      ['01:10', '12:50', '12:55'],
      ['0:50', '1:10', '2:00'],
    ]) {
      expect(proposed(table(times))).toMatchObject({ doubts: [] });
    }
  });
});

describe('the channel that a title names', () => {
  const channels = (titles: readonly string[], cells: readonly (number | string)[]) =>
    proposed(`Time;${titles.join(';')}\n09:15;${cells.join(';')}\n09:20;${cells.join(';')}`);

  it('is the heart rate, not the breaths, of "Frecuencia cardíaca" and its like', () => {
    for (const title of [
      'Frecuencia cardíaca [lpm]',
      'Fréquence cardiaque',
      'Herzfrequenz',
      'Pulso',
    ]) {
      expect(channels([title], [104]).form.columns).toMatchObject([{ channel: 'heart rate' }]);
    }
    for (const title of ['Frecuencia respiratoria', 'Atemfrequenz', 'FR', 'AWRR']) {
      expect(channels([title], [12]).form.columns).toMatchObject([{ channel: 'breaths' }]);
    }
  });

  it.each([
    'Rate BPM',
    'HR low limit',
    'HR set',
    'Alarm HR',
    'Pressure',
    'Pulse pressure',
    'CVP mean',
    'Mean airway pressure',
    'Cardiac output',
    'Probe temp set',
    'FiCO2',
    'ISO fi %',
    'rSO2',
    'NIBP-M time',
    'T wave',
    'Temp probe battery',
    'Minute resp vol',
    'HR source',
  ])('is none of "%s"', (title) => {
    expect(channels(['SpO2', title], [98, 40])).toMatchObject({
      form: { columns: [{ channel: 'SpO2' }] },
      leftOver: [title],
    });
  });

  it('is that of the ECG before that of the pulse, whichever comes first, and the other is named', () => {
    const { form, doubts } = channels(['PR', 'HR low limit', 'HR'], [96, 40, 98]);
    expect(form.columns).toEqual([{ channel: 'heart rate', column: 'HR', unit: '/min' }]);
    expect(doubts).toEqual(['"HR" is taken for heart rate, and not "PR"']);
  });

  it('is a rate before what it is counted from, and a measurement before its mean', () => {
    expect(channels(['PR (SpO2)', 'SpO₂'], [96, 98]).form.columns).toMatchObject([
      { channel: 'heart rate' },
      { channel: 'SpO2', column: 'SpO₂' },
    ]);
    expect(channels(['HR mean', 'Temp mean'], [96, 38]).form.columns).toMatchObject([
      { channel: 'heart rate' },
      { channel: 'temperature' },
    ]);
    expect(channels(['End-tidal isoflurane (%)'], [1.5]).form.columns).toMatchObject([
      { channel: 'agent' },
    ]);
  });

  it('is read from abbreviations of four languages, and from names of programs', () => {
    for (const titles of [
      ['FREC CARD', 'FREC RESP', 'PRES SIST', 'PRES DIAST', 'PRES MEDIA'],
      ['Puls', 'AF', 'RR sys', 'RR dia', 'RR mit'],
      ['FC', 'FR', 'PAS', 'PAD', 'PAM'],
      ['heartRate', 'respRate', 'sysPressure', 'diaPressure', 'meanPressure'],
      ['heart_rate', 'resp_rate', 'sbp_mmhg', 'dbp_mmhg', 'map_mmhg'],
    ]) {
      expect(
        channels(titles, [104, 12, 106, 58, 74]).form.columns?.map(({ channel }) => channel),
      ).toEqual(['heart rate', 'breaths', 'systolic', 'diastolic', 'mean']);
    }
  });

  it('of pressures is taken from one way to measure them, which tells the most', () => {
    const titles = ['IBP sys', 'NIBP sys', 'NIBP dia', 'NIBP mean'];
    const { form } = channels(titles, [120, 106, 58, 74]);
    expect(form.columns?.map(({ column }) => column)).toEqual(titles.slice(1));
  });

  it('needs readings below it', () => {
    const { form, leftOver } = channels(['HR', 'Resp.', 'T2'], [96, 'Ines', '---']);
    expect(form).toMatchObject({
      missing: ['---'],
      columns: [{ channel: 'heart rate' }, { channel: 'temperature' }],
    });
    expect(leftOver).toEqual(['Resp.']);
  });

  it('stands in two lines of titles, or twice, and is named by its number then', () => {
    expect(arrives('Time,Heart,Oxygen,NIBP,,\n,Rate,SpO2,S,D,M\n09:15,104,98,106,58,74\n')).toEqual(
      [[5, { 'heart rate': 104, SpO2: 98, systolic: 106, diastolic: 58, mean: 74 }]],
    );
    const { form, doubts } = channels(['HR', 'SpO2', 'HR'], [96, 98, 99]);
    expect(form).toMatchObject({
      'columns in all': 4,
      columns: [{ column: 2 }, { column: 'SpO2' }],
    });
    expect(doubts).toEqual(['"HR" in column 2 is taken for heart rate, and not "HR" in column 4']);
  });
});

describe('the unit of a column', () => {
  it('that no form reads keeps the column out: CO2 in %, an interval in ms, water for mercury', () => {
    const table = 'Time,HR,etCO2 %,RR (ms),MAP (cmH2O)\n09:15,104,5.8,576,98\n09:20,98,5.7,612,96';
    const { form, leftOver, doubts } = proposed(table);
    expect(form.columns).toMatchObject([{ channel: 'heart rate' }]);
    expect(leftOver).toEqual(['etCO2 %', 'RR (ms)', 'MAP (cmH2O)']);
    expect(doubts).toEqual([
      '"etCO2 %" is told in %, which is read only where the form says what the percent are of: see "EtCO2 in percent" in the guide',
      '"RR (ms)" is told in ms, which no form reads for breaths',
      '"MAP (cmH2O)" is told in cmH2O, which no form reads for mean',
    ]);
  });

  it('is a fraction where a saturation is one at most, even under %', () => {
    expect(arrives('Time,SpO2 (%)\n09:15,0.98\n09:20,1.00')).toEqual([
      [5, { SpO2: 98 }],
      [10, { SpO2: 100 }],
    ]);
    expect(proposed('Time,SpO2 (%)\n09:15,0.98').doubts).toEqual([
      'the unit of "SpO2 (%)" is written "%"; fraction is guessed',
    ]);
  });

  it('is read from "ºC", "vol%", "1/min" and "lpm"', () => {
    const table = 'Time,FC [lpm],FR (1/min),T (ºC),Iso (vol%)\n09:15,104,12,37.9,1.5';
    expect(proposed(table)).toMatchObject({
      form: { columns: [{ unit: '/min' }, { unit: '/min' }, { unit: 'C' }, { unit: '%' }] },
      doubts: [],
    });
  });
});

describe('marks of missing readings', () => {
  it('are numbers that no instrument shows, and zeros where no living patient has one', () => {
    const table = [
      'Time,HR,SpO2,SYS (mmHg),RR,T (C)',
      '09:15,104,98,110,0,37.9',
      '09:20,-999,0,0,12,0.0',
      '09:25,98,32767,-999,12,37.7',
    ].join('\n');
    const { form } = proposed(table);
    expect(form.missing).toEqual(['-999']);
    expect(form.columns?.map(({ missing }) => missing)).toEqual([
      undefined,
      ['0', '32767'],
      ['0'],
      undefined,
      ['0.0'],
    ]);
    expect(arrives(table)).toEqual([
      [5, { 'heart rate': 104, SpO2: 98, systolic: 110, breaths: 0, temperature: 37.9 }],
      [10, { breaths: 12 }],
      [15, { 'heart rate': 98, breaths: 12, temperature: 37.7 }],
    ]);
  });
});

describe('day and time of a sample', () => {
  const at = (cells: readonly string[], title = 'Stamp') =>
    `${title};HR\n${cells.map((cell, row) => `${cell};${100 + row}`).join('\n')}`;
  const twoLines = [
    [5, { 'heart rate': 100 }],
    [10, { 'heart rate': 101 }],
  ];

  it.each([
    [['9 Mar 2026 09:15', '9 Mar 2026 09:20']],
    [['Mon 9 Mar 2026 9h15', 'Mon 9 Mar 2026 9h20']],
    [['20260309 091500', '20260309 092000']],
    [['20260309091500', '20260309092000']],
    [['9/3/2026 9:15:00 a. m.', '9/3/2026 9:20:00 a. m.']],
    [['1773065700', '1773066000']],
    [['1773065700000', '1773066000000']],
    [['2026-03-09T09:15:00.250', '2026-03-09T09:20:00.250']],
  ])('are read from %j', (cells) => {
    expect(arrives(at(cells))).toEqual(twoLines);
  });

  it('are a count where the title says so, or where they begin at zero', () => {
    expect(arrives(at(['00:05:00', '00:10:00'], 'Elapsed'))).toEqual(twoLines);
    expect(arrives(at(['300', '600'], 'Seconds'))).toEqual(twoLines);
    expect(proposed(at(['00:00:05', '00:05:05'], 'Time'))).toMatchObject({
      form: { time: { written: 'hours:minutes:seconds' } },
      doubts: [expect.stringContaining('if it is the time of day, write H:mm:ss')],
    });
  });

  it('are a clock with points beside a day, and no minutes', () => {
    const table = 'Date;Time;HR\n09-03-26;09.15;100\n09-03-26;09.20;101';
    expect(arrives(table)).toEqual(twoLines);
  });

  it('say when the day may as well be the month, also before AM and PM', () => {
    expect(proposed(at(['9/3/2026 9:15 AM', '9/3/2026 9:20 AM'])).doubts).toEqual([
      expect.stringContaining('may also be written M/d/yyyy h:mm a'),
    ]);
  });

  it('are found beside the time of a cuff that stands still, and above a footer', () => {
    const table = 'Cuff;Time;HR\n09:15;09:15;100\n09:15;09:20;101\nend;;\n2 rows;;';
    expect(arrives(table)).toEqual(twoLines);
  });

  it('show that the newest line comes first', () => {
    expect(arrives('Time,HR\n09:20,101\n09:15,100')).toEqual(twoLines);
  });
});

describe('the encoding of a sample', () => {
  it('is UTF-16 also without a mark', () => {
    const table = 'Time\tHR\n09:15\t100\n09:20\t101';
    const little = Buffer.from(table, 'utf16le');
    expect(proposed(little).form.encoding).toBe('utf-16le');
    expect(proposed(Buffer.from(little).swap16()).form.encoding).toBe('utf-16be');
  });

  it('is guessed to be of the West where it is not Unicode, and told', () => {
    const table = Buffer.from('Hora,FC,T [°C]\n09:15,104,37.9\n', 'latin1');
    const { form, doubts } = proposed(table);
    expect(form).toMatchObject({ encoding: 'windows-1252', columns: [{}, { unit: 'C' }] });
    expect(doubts).toEqual([expect.stringContaining('windows-1252 is guessed')]);
  });
});
