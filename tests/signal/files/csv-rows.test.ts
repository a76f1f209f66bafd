import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { eachRow } from '../../../src/signal/files/csv-rows.js';

type Row = readonly [cells: readonly string[], line: number];

const rowsOf = (text: string, delimiter: string): Row[] => {
  const rows: Row[] = [];
  eachRow(text, delimiter, (cells, line) => rows.push([[...cells], line]));
  return rows;
};

/** The same by csv-parse, a kept library of the registry: `info` gives the line of each row. */
const rowsByLibrary = (text: string, delimiter: string): Row[] => {
  const records = parse(text, {
    bom: true,
    delimiter,
    info: true,
    record_delimiter: ['\r\n', '\n', '\r'],
    relax_column_count: true,
    skip_empty_lines: true,
    trim: true,
  }) as unknown as { record: string[]; info: { lines: number } }[];
  return records.map(({ record, info }) => [record, info.lines]);
};

describe('rows of a table of samples', () => {
  it('gives trimmed cells with their line, whatever ends the lines', () => {
    expect(rowsOf('time, II \n\n0,0.1\r\n \r0.5,', ',')).toEqual([
      [['time', 'II'], 1],
      [['0', '0.1'], 3],
      [['0.5', ''], 5],
    ]);
  });

  it.each([',', ';', '\t'])('cuts as csv-parse cuts, at %j', (delimiter) => {
    const piece = fc.constantFrom(
      ...[
        '0',
        '-1.5',
        '2,5',
        'e',
        ' ',
        '\t',
        '\u00a0',
        '\v',
        '\ufeff',
        ',',
        ';',
        '\n',
        '\r',
        '\r\n',
      ],
    );
    const text = fc.array(piece, { maxLength: 40 }).map((pieces) => pieces.join(''));
    fc.assert(
      fc.property(text, (one) => {
        expect(rowsOf(one, delimiter)).toEqual(rowsByLibrary(one, delimiter));
      }),
      { numRuns: 2000 },
    );
  });

  it('reads quoted cells, which may hold the delimiter', () => {
    expect(rowsOf('"II, clipped",x\n1,2\n', ',')).toEqual([
      [['II, clipped', 'x'], 1],
      [['1', '2'], 2],
    ]);
  });
});
