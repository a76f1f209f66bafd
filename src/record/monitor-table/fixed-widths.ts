import type { Line } from '../vitals-rows.js';
import type { CellPlace } from './cell-place.js';

/** Columns that are told apart by their place in the line, from left to right. */
export interface FixedWidths {
  /** Letters of each column. */
  readonly widths: readonly number[];
  /** Whether a column may begin where the one before has a letter in its last place. */
  readonly touch: boolean;
}

const linesOf = (text: string): string[] => text.replace(/^\ufeff/, '').split(/\r\n|\n|\r/);

/** Where each column begins, and where the last ends. */
function cutsOf({ widths }: FixedWidths): number[] {
  const cuts = [0];
  for (const width of widths) cuts.push((cuts.at(-1) as number) + width);
  return cuts;
}

/**
 * The lines that hold anything, cut at fixed places. A line in which a word runs from one column into the next is marked,
 * as it stands elsewhere than the columns do; what stands beyond the last column is a cell of its own.
 */
export function cellsOfWidths(text: string, fixed: FixedWidths): Line[] {
  const cuts = cutsOf(fixed);
  return linesOf(text).flatMap((said, at): Line[] => {
    const letters = [...said.trimEnd()];
    if (letters.length === 0) return [];
    const pieces = cuts.map((cut, column) => letters.slice(cut, cuts[column + 1]));
    const cells = pieces.map((piece) => piece.join('').trim());
    const beyond = cells.pop() as string;
    const torn = [...pieces.keys()].find((column) => column > 0 && isTorn(pieces, column, fixed));
    return [
      {
        line: at + 1,
        cells: beyond === '' ? cells : [...cells, beyond],
        // A tab takes a place that nobody can tell.
        ...(said.includes('\t') ? { torn: 0 } : torn !== undefined && { torn }),
      },
    ];
  });
}

/** Whether a word runs into a column. Where columns may touch, it does so unless it fills one of the two. */
function isTorn(
  pieces: readonly (readonly string[])[],
  column: number,
  { widths, touch }: FixedWidths,
): boolean {
  const fills = (at: number) =>
    (pieces[at] as readonly string[]).length === widths[at] &&
    (pieces[at] as readonly string[]).every((letter) => letter !== ' ');
  const [before, own] = [pieces[column - 1], pieces[column]];
  const runs =
    before?.length === widths[column - 1] &&
    before?.at(-1) !== ' ' &&
    own?.[0] !== undefined &&
    own[0] !== ' ';
  return runs && !(touch && (fills(column - 1) || fills(column)));
}

/** Finds the cells of a table of fixed widths. */
export function widthPlaces(text: string, fixed: FixedWidths): CellPlace {
  let lines: readonly string[] | null = null;
  const cuts = cutsOf(fixed);
  return (line, index) => {
    lines ??= linesOf(text);
    const cut = cuts[index];
    const said = (lines[line - 1] ?? '').slice(cut, cuts[index + 1]);
    if (cut === undefined || said.trim() === '') return {};
    const column = cut + said.length - said.trimStart().length + 1;
    return { column, end: column + said.trim().length };
  };
}
