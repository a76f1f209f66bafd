import type { Line } from '../vitals-rows.js';
import { cellsOfWidths } from './fixed-widths.js';
import { namedChannel } from './named-channel.js';
import { sampleWidths } from './sample-widths.js';
import { SEPARATORS, type WrittenForm } from './table-form.js';
import { cellsOf } from './table-text.js';

/** A sample of a table, cut into columns. */
export interface SampleLines {
  /** How a form says where the columns are. */
  readonly cut: Pick<WrittenForm, 'between columns' | 'column widths'>;
  readonly titles: Line;
  /** The line above the titles, where it is one of titles as well. */
  readonly above: Line | null;
  /** Lines below the titles that hold no readings, such as units. */
  readonly below: readonly Line[];
  readonly body: readonly Line[];
}

/** Words that monitors write in place of a reading. Common practice. */
const NOTHING = /^(n\.?\/?a\.?|nan|null|none|nil|off|x+|err(or)?|s\/d)$/i;

/** Whether a cell tells neither a reading nor anything else: it is empty, or a mark such as `---` or `N/A`. */
const tellsNothing = (cell: string): boolean => !/[\p{L}\p{N}%]/u.test(cell) || NOTHING.test(cell);

/** Titles stand within so many lines. Not a clinical number. */
const TITLES_WITHIN = 300;
/** Looks at so many lines of readings. Not a clinical number. */
const LOOK_AT = 2000;

/**
 * Cuts a table by the sign, and below the titles, that name the most measurements, or by the places at which all lines have
 * a space where that names more; null where nothing cuts it into columns.
 */
export function sampleLines(text: string): SampleLines | null {
  let best: { readonly lines: SampleLines; readonly score: number } | null = null;
  for (const { cut, lines: all } of cutsOf(text)) {
    const lines = belowTitles(cut, all);
    if (!lines) continue;
    const cells = lines.body.reduce((sum, line) => sum + line.cells.length, 0);
    // One more name weighs more than any number of cells.
    const score = namesIn(lines.titles) + cells / (cells + 1);
    const least = cut['column widths'] ? Math.ceil(best?.score ?? 0) : (best?.score ?? 0);
    if (!best || score > least) best = { lines, score };
  }
  return best?.lines ?? null;
}

/** The ways in which a text may be cut into columns. */
function* cutsOf(text: string): Generator<Pick<SampleLines, 'cut'> & { lines: readonly Line[] }> {
  for (const separator of Object.keys(SEPARATORS) as (keyof typeof SEPARATORS)[]) {
    const lines = cellsOf(text, SEPARATORS[separator], '');
    const cut = separator === 'comma' ? {} : { 'between columns': separator };
    if (lines.ok) yield { cut, lines: lines.value };
  }
  const widths = sampleWidths(text, hasReadings);
  if (widths) {
    const cut = { 'column widths': [...widths] };
    yield { cut, lines: cellsOfWidths(text, { widths, touch: false }) };
  }
}

const namesIn = ({ cells }: Line): number =>
  cells.filter((cell) => namedChannel(cell) !== null).length;

/** A day or a time of day, or a number with decimals. */
const TIME_LIKE = /^\d{1,4}[-:/.,]\d/;

/** Whether a line holds readings: it has a time, or of the cells that tell anything, half or more begin with a digit. */
function hasReadings({ cells }: Pick<Line, 'cells'>): boolean {
  if (cells.some((cell) => TIME_LIKE.test(cell))) return true;
  const telling = cells.filter((cell) => !tellsNothing(cell));
  const numbers = telling.filter((cell) => /^[-+]?[.,]?\d/.test(cell));
  return numbers.length > 0 && numbers.length * 2 >= telling.length;
}

function belowTitles(cut: SampleLines['cut'], lines: readonly Line[]): SampleLines | null {
  const wide = lines.filter(({ cells }) => cells.length > 1);
  if (wide.length < 2) return null;
  const heads = wide.slice(0, TITLES_WITHIN).filter((line) => !hasReadings(line));
  const above = wide.slice(0, Math.max(0, wide.findIndex(hasReadings)));
  // Where no title names a measurement, the names may stand below each other.
  const first = above.at(-1) ?? heads[0];
  if (!first) return null;
  const titles = heads.reduce((one, other) => (namesIn(other) > namesIn(one) ? other : one), first);
  const start = wide.indexOf(titles);
  const rest = wide.slice(start + 1);
  const from = rest.findIndex(hasReadings);
  if (from < 0) return null;
  const before = wide[start - 1];
  const isTitles =
    before !== undefined && !hasReadings(before) && before.cells.length === titles.cells.length;
  return {
    cut,
    titles,
    above: isTitles ? before : null,
    below: rest.slice(0, from),
    body: rest.slice(from, from + LOOK_AT).filter(hasReadings),
  };
}
