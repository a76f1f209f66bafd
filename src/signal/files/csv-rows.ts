import { parse } from 'csv-parse/sync';

/** A row that holds anything. @param line 1-based, where it ends */
export type TakeRow = (cells: readonly string[], line: number) => void;

/** Line ends of Unix, Windows and the first Macintosh. */
const LINE_END = /\r\n|\n|\r/g;

/**
 * Cuts a table into rows of trimmed cells by the rules of CSV (RFC 4180), and hands on one after the other, so that a
 * table is never held twice. Rows without anything are left out.
 * @throws CsvError where quotes do not pair up
 */
export function eachRow(text: string, delimiter: string, take: TakeRow): void {
  // An hour of samples has millions of cells, none of them quoted: nothing but ends and delimiters is special then.
  if (text.includes('"')) eachQuotedRow(text, delimiter, take);
  else eachPlainRow(text, delimiter, take);
}

function eachQuotedRow(text: string, delimiter: string, take: TakeRow): void {
  parse(text, {
    bom: true,
    delimiter,
    record_delimiter: ['\r\n', '\n', '\r'],
    relax_column_count: true,
    skip_empty_lines: true,
    trim: true,
    on_record: (cells: string[], { lines }) => {
      take(cells, lines);
      return null;
    },
  });
}

function eachPlainRow(text: string, delimiter: string, take: TakeRow): void {
  let from = text.startsWith('\ufeff') ? 1 : 0;
  let line = 1;
  LINE_END.lastIndex = from;
  while (from < text.length) {
    const end = LINE_END.exec(text);
    const cells = text.slice(from, end?.index).split(delimiter);
    for (let index = 0; index < cells.length; index++) cells[index] = cells[index]!.trim();
    if (cells.length > 1 || cells[0] !== '') take(cells, line);
    if (end === null) return;
    from = LINE_END.lastIndex;
    line += 1;
  }
}
