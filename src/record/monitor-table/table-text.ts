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

/** Where quotes cease to pair up: one that is not closed takes in the rest of the file, so it is told where it opens. */
export function quotePlace({ code, lines }: CsvError, text: string) {
  if (code !== 'CSV_QUOTE_NOT_CLOSED') return { line: Number(lines ?? 1) };
  const written = text.split(/\r\n|\n|\r/);
  const open = written.findIndex((line) => line.split('"').length % 2 === 0);
  return { line: open + 1, column: (written[open]?.indexOf('"') ?? 0) + 1 };
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
    return bad({
      kind: 'quotes that do not pair up',
      file,
      ...quotePlace(error as CsvError, text),
      found: 'quotation marks that do not pair up',
      expected,
      mend: 'Take the quotation marks out, or put one at each end of the cell.',
    });
  }
}
