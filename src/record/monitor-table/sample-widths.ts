import type { Line } from '../vitals-rows.js';

/** Looks at so many lines. Not a clinical number. */
const LOOK_AT = 2000;

type Letters = readonly string[];

const isBlank = (line: Letters, at: number): boolean => (line[at] ?? ' ') === ' ';

/**
 * The widths of columns that nothing but spaces parts: they begin where every line of readings has a space, and the titles
 * above no word. Null where there are no two of them.
 * @param hasReadings whether words of a line are readings
 */
export function sampleWidths(
  text: string,
  hasReadings: (line: Pick<Line, 'cells'>) => boolean,
): number[] | null {
  const lines = text
    .replace(/^\ufeff/, '')
    .split(/\r\n|\n|\r/, LOOK_AT)
    .map((line) => [...line.trimEnd()])
    .filter((line) => line.length > 0);
  const isRow = (line: Letters) => {
    const cells = line.join('').trim().split(/\s+/);
    return cells.length > 1 && cells.slice(0, 3).some(isTime) && hasReadings({ cells });
  };
  const first = lines.findIndex(isRow);
  const titles = lines[first - 1];
  const rows = lines.filter(isRow);
  const isTable = rows.length > 1 && rows.length * 2 > lines.length - first;
  if (!titles || !isTable || rows.some((row) => row.includes('\t'))) return null;
  const width = Math.max(titles.length, ...rows.map((row) => row.length));
  const begins = gapsOf(rows, width).flatMap((gap) => beginOf(gap, rows, titles) ?? []);
  if (begins.length === 0) return null;
  return [0, ...begins].map((begin, column) => (begins[column] ?? width) - begin);
}

const isTime = (word: string): boolean => /^\d{1,2}[:.h]\d{2}|^\d{4}-\d{2}-\d{2}T/.test(word);

/** Places at which all lines have a space, up to the next word and its end. */
interface Gap {
  readonly from: number;
  readonly to: number;
  readonly end: number;
}

function gapsOf(rows: readonly Letters[], width: number): Gap[] {
  const blank = Array.from({ length: width }, (_, at) => rows.every((row) => isBlank(row, at)));
  const next = (from: number, is: boolean) => {
    const at = blank.indexOf(is, from);
    return at < 0 ? width : at;
  };
  const gaps: Gap[] = [];
  for (let from = next(next(0, false), true); from < width; ) {
    const to = next(from, false);
    const end = next(to, true);
    if (to < width) gaps.push({ from, to, end });
    from = end;
  }
  return gaps;
}

/**
 * Where the column behind a gap begins: numbers end below each other, and may have a digit more in front of them; words
 * begin so. Undefined where a title reaches over the gap or none stands behind it, which then is one within a column.
 */
function beginOf({ from, to, end }: Gap, rows: readonly Letters[], titles: Letters) {
  if (titles.slice(from, end).every((letter) => letter === ' ')) return undefined;
  const places = Array.from({ length: to - from + 1 }, (_, place) => from + place).filter(
    (place) => isBlank(titles, place - 1) || isBlank(titles, place),
  );
  const isEmpty = (row: Letters) => row.slice(to, end).every((letter) => letter === ' ');
  const endsAlike = rows.every((row) => !isBlank(row, end - 1) || isEmpty(row));
  return endsAlike ? places[0] : places.at(-1);
}
