import type { Problem } from '../problem.js';

/** Where a cell stands in its line. */
export type CellPlace = (line: number, index: number) => Pick<Problem, 'column' | 'end'>;

/**
 * Finds the cells of a table. It is cut into lines only when a problem asks.
 * A line without such a cell has no place.
 */
export function cellPlaces(text: string, separator: string): CellPlace {
  let lines: readonly string[] | null = null;
  return (line, index) => {
    lines ??= text.replace(/^\ufeff/, '').split(/\r\n|\n|\r/);
    const said = lines[line - 1] ?? '';
    let start = 0;
    let cell = 0;
    let quoted = false;
    for (let place = 0; place <= said.length; place++) {
      if (said[place] === '"') quoted = !quoted;
      if (place < said.length && (quoted || !said.startsWith(separator, place))) continue;
      if (cell === index) {
        const text = said.slice(start, place);
        const column = start + text.length - text.trimStart().length + 1;
        return { column, end: column + text.trim().length };
      }
      cell += 1;
      start = place + separator.length;
    }
    return {};
  };
}
