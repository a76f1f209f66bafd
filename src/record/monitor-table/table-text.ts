import { type CsvError, parse } from 'csv-parse/sync';
import { bad, good, type Outcome } from '../problem.js';
import type { Line } from '../vitals-rows.js';

/** The text of a table; bytes that its encoding does not have are a problem, never replaced. */
export function decoded(bytes: Uint8Array, encoding: string, file: string): Outcome<string> {
  try {
    return good(new TextDecoder(encoding, { fatal: true }).decode(bytes));
  } catch {
    return bad({
      kind: 'text in another encoding',
      file,
      found: `bytes that are not ${encoding}`,
      expected: `text in ${encoding}`,
      mend: 'Mend "encoding" of the form in the clinic\'s file, or save the table in that encoding.',
    });
  }
}

/**
 * The lines that hold anything, cut into cells by the rules of CSV (RFC 4180) with any separator.
 * @param strayQuotes whether a quote within a cell stands for itself, as monitors write them
 */
export function cellsOf(
  text: string,
  separator: string,
  file: string,
  { strayQuotes = true, expected = 'a table that can be cut into columns' } = {},
): Outcome<Line[]> {
  try {
    const records = parse(text, {
      bom: true,
      delimiter: separator,
      info: true,
      relaxColumnCount: true,
      relaxQuotes: strayQuotes,
      skipEmptyLines: true,
      trim: true,
    }) as unknown as { record: string[]; info: { lines: number } }[];
    return good(records.map(({ record, info }) => ({ line: info.lines, cells: record })));
  } catch (error) {
    const problem = error as CsvError;
    return bad({
      kind: 'quotes that do not pair up',
      file,
      line: Number(problem.lines ?? 1),
      found: problem.message,
      expected,
      mend: 'Check the quotes on this line.',
    });
  }
}
