import type { Drawing, Mark, Point, Stroke } from './drawing.js';
import { inks } from './inks.js';
import { rectangle, text } from './lettering.js';
import { textWidth } from './text-width.js';

/** What the rows are for, from top to bottom. */
export const CHART_ROWS = [
  'heartRate',
  'gums',
  'breaths',
  'saturation',
  'carbonDioxide',
  'systolic',
  'mean',
  'diastolic',
  'temperature',
  'agent',
  'oxygen',
  'fluids',
] as const;
type ChartRow = (typeof CHART_ROWS)[number];

/** Fields above the grid, line by line, with their shares of the width in thousandths. */
const FIELD_LINES = [
  [
    ['name', 220],
    ['species', 270],
    ['age', 200],
    ['weight', 130],
    ['record', 180],
  ],
  [
    ['procedure', 350],
    ['surgeon', 190],
    ['anesthetist', 190],
    ['date', 130],
    ['sheet', 140],
  ],
] as const;
type ChartField = (typeof FIELD_LINES)[number][number][0];

/** Fields below it, likewise. */
const TOTAL_LINES = [
  [
    ['induction', 250],
    ['incision', 250],
    ['end', 250],
    ['extubation', 250],
  ],
  [
    ['fluidsIn', 250],
    ['bloodLost', 250],
    ['urine', 200],
    ['signed', 300],
  ],
] as const;
type ChartTotal = (typeof TOTAL_LINES)[number][number][0];

/** All words of the chart, in the language of the sheet: what to fill in, what each row and total is. */
export interface ChartWords {
  readonly fields: Readonly<Record<ChartField, string>>;
  readonly rows: Readonly<Record<ChartRow, string>>;
  readonly totals: Readonly<Record<ChartTotal, string>>;
  readonly minute: string;
  readonly clock: string;
  readonly trend: string;
  readonly heart: string;
  readonly pressure: string;
  readonly at: string;
  readonly drug: string;
  readonly by: string;
  readonly event: string;
}

/** What is known before the first stroke of the pen; all else is left to it. */
export interface ChartKnown {
  readonly fields: Partial<Readonly<Record<ChartField, string>>>;
  /** Levels of the trend, for beats/min and mmHg alike, ascending: each has a line and its number; first and last are its borders. */
  readonly levels: readonly [number, number, ...number[]];
}

/** Layout of a page, mm: not clinical numbers. Cells are as large as a pen needs: 6 mm wide and 6 mm high or more. */
const LABEL = 34;
const COLUMNS = 24;
/** Every drawn part is this wide. */
interface Sheet {
  readonly width: number;
  readonly column: number;
}
const LEAST_ROW = 6;
const USUAL_ROW = 7.2;
const FIELD = 8;
const HEAD = 5.4;
const CLOCK = 7;
const TREND = 36;
const LINE = 6.4;
const LINE_HEAD = 4.6;
const FEWEST_LINES = 5;
const TOTAL = 8.4;
const GAP = 2.4;
const SMALL = 2.3;
const WRITTEN = 3.1;

/** Rows that change slowly have a cell for each quarter of an hour, wide enough for `37.8` or a clock time. */
const SLOW: readonly ChartRow[] = ['gums', 'temperature', 'oxygen', 'fluids'];
const QUARTER = 3;

/** Columns lie five minutes apart; a heavier line each quarter of an hour and a bold one each hour. */
const MINUTES = 5;

const fine: Stroke = { colour: inks.rule, width: 0.15 };
const middling: Stroke = { colour: inks.faint, width: 0.25 };
const bold: Stroke = { colour: inks.ink, width: 0.4 };

/** An anesthesia chart for two hours, to be filled in by hand; width and height in mm are shared out among its parts. */
export function anesthesiaChart(
  words: ChartWords,
  { width, height }: Pick<Drawing, 'width' | 'height'>,
  known: ChartKnown,
): Drawing {
  const { rowHeight, lines } = shared(height);
  const sheet: Sheet = { width, column: (width - LABEL) / COLUMNS };
  const marks: Mark[] = [];
  let y = 0;
  const put = (tall: number, part: readonly Mark[]) => {
    marks.push(...part);
    y += tall;
  };
  for (const fields of FIELD_LINES) {
    put(FIELD, boxes(sheet, fields, y, FIELD, words.fields, known.fields));
  }
  y += GAP;
  const grid = y;
  put(HEAD, minutes(sheet, words, y));
  put(CLOCK, row(sheet, words.clock, y, CLOCK, true));
  for (const name of CHART_ROWS) {
    put(rowHeight, row(sheet, words.rows[name], y, rowHeight, SLOW.includes(name)));
  }
  marks.unshift(...shades(sheet, grid, y - grid));
  marks.push(...frame(sheet, grid, y - grid));
  y += GAP;
  put(TREND, trend(sheet, words, y, known.levels));
  y += GAP;
  put(LINE_HEAD + lines * LINE, notes(sheet, words, y, lines));
  y += GAP;
  for (const totals of TOTAL_LINES) put(TOTAL, boxes(sheet, totals, y, TOTAL, words.totals, {}));
  return { width, height, marks };
}

/** How tall the rows are and how many lines there are for drugs, so that the sheet is full. */
function shared(height: number): { rowHeight: number; lines: number } {
  const fixed = FIELD_LINES.length * FIELD + HEAD + CLOCK + TREND + LINE_HEAD + 2 * TOTAL + 4 * GAP;
  const most = Math.floor((height - fixed - CHART_ROWS.length * LEAST_ROW) / LINE);
  if (most < FEWEST_LINES) throw new Error(`no room for a chart in ${height} mm`);
  const usual = Math.floor((height - fixed - CHART_ROWS.length * USUAL_ROW) / LINE);
  const lines = Math.min(most, Math.max(FEWEST_LINES, usual));
  return { rowHeight: (height - fixed - lines * LINE) / CHART_ROWS.length, lines };
}

const stroke = (from: Point, to: Point, how: Stroke): Mark => ({
  kind: 'line',
  points: [from, to],
  stroke: how,
});

/** A label small in its corner, and what is known written below it. */
function boxes<K extends string>(
  sheet: Sheet,
  fields: readonly (readonly [K, number])[],
  y: number,
  tall: number,
  labels: Readonly<Record<K, string>>,
  known: Partial<Readonly<Record<K, string>>>,
): Mark[] {
  let x = 0;
  return fields.flatMap(([name, share]): Mark[] => {
    const width = (sheet.width * share) / 1000;
    const left = x;
    x += width;
    const written = known[name];
    return [
      {
        kind: 'area',
        points: rectangle(left, y, width, tall),
        fill: inks.paper,
        stroke: middling,
      },
      text([left + 0.9, y + 2.5], labels[name], { size: SMALL, colour: inks.soft }),
      ...(written === undefined
        ? []
        : [fitted([left + 0.9, y + tall - 1.5], written, width - 1.8)]),
    ];
  });
}

/** As large as writing on the form, or as small as it must be to stay in its place. */
const fitted = (at: Point, words: string, room: number): Mark =>
  text(at, words, {
    size: Math.min(WRITTEN, room / Math.max(1, textWidth(words, 1))),
    colour: inks.ink,
  });

const columnAt = ({ column }: Sheet, index: number) => LABEL + index * column;

/** Every second quarter of an hour on a tint, so that the eye keeps to its column. */
const shades = (sheet: Sheet, top: number, tall: number): Mark[] =>
  Array.from({ length: COLUMNS / QUARTER }, (_, quarter) => quarter)
    .filter((quarter) => quarter % 2 === 1)
    .map((quarter) => ({
      kind: 'area',
      points: rectangle(columnAt(sheet, quarter * QUARTER), top, QUARTER * sheet.column, tall),
      fill: inks.tint,
    }));

function minutes(sheet: Sheet, words: ChartWords, y: number): Mark[] {
  return [
    text([0.9, y + HEAD - 1.6], words.minute, { size: 2.7, weight: 'bold', colour: inks.ink }),
    ...Array.from({ length: COLUMNS }, (_, i) =>
      text([columnAt(sheet, i) + sheet.column / 2, y + HEAD - 1.6], String(i * MINUTES), {
        size: 2.5,
        weight: i % QUARTER === 0 ? 'bold' : 'regular',
        align: 'middle',
        colour: inks.ink,
      }),
    ),
  ];
}

function row(sheet: Sheet, label: string, y: number, tall: number, slow: boolean): Mark[] {
  const step = slow ? QUARTER : 1;
  return [
    stroke([0, y], [sheet.width, y], middling),
    text([0.9, y + tall / 2 + 1], label, {
      size: Math.min(2.9, (LABEL - 1.6) / Math.max(1, textWidth(label, 1))),
      colour: inks.ink,
    }),
    ...Array.from({ length: COLUMNS / step }, (_, i) => i * step)
      .filter((i) => i > 0)
      .map((i) =>
        stroke(
          [columnAt(sheet, i), y],
          [columnAt(sheet, i), y + tall],
          i % QUARTER ? fine : middling,
        ),
      ),
  ];
}

function frame(sheet: Sheet, top: number, tall: number): Mark[] {
  const hour = 60 / MINUTES;
  return [
    ...[0, hour, 2 * hour].map((i) =>
      stroke([columnAt(sheet, i), top], [columnAt(sheet, i), top + tall], bold),
    ),
    {
      kind: 'line',
      points: [...rectangle(0, top, sheet.width, tall), [0, top]],
      stroke: bold,
    },
  ];
}

/** A field in which points may be joined by hand: a ring for the heart rate, a short bar for the mean pressure. */
function trend(sheet: Sheet, words: ChartWords, top: number, levels: ChartKnown['levels']): Mark[] {
  const at = (level: number) => {
    const [low, high] = [levels[0], levels.at(-1) as number];
    return top + TREND - ((level - low) / (high - low)) * TREND;
  };
  // The numbers of the borders stand within the frame.
  const beside = (level: number) =>
    Math.min(Math.max(at(level) + 0.9, top + 2.4), top + TREND - 0.7);
  return [
    ...shades(sheet, top, TREND),
    ...levels
      .slice(1, -1)
      .map((level) => stroke([LABEL, at(level)], [sheet.width, at(level)], fine)),
    ...levels.map((level) =>
      text([LABEL - 1.2, beside(level)], String(level), {
        size: 2.5,
        align: 'end',
        colour: inks.soft,
      }),
    ),
    ...Array.from({ length: COLUMNS - 1 }, (_, i) =>
      stroke(
        [columnAt(sheet, i + 1), top],
        [columnAt(sheet, i + 1), top + TREND],
        (i + 1) % QUARTER ? fine : middling,
      ),
    ),
    text([0.9, top + 3.6], words.trend, { size: 2.9, weight: 'bold', colour: inks.ink }),
    {
      kind: 'circle',
      centre: [2.4, top + 8.2],
      radius: 1,
      stroke: { colour: inks.ink, width: 0.35 },
    },
    text([5, top + 9.1], words.heart, { size: 2.7, colour: inks.ink }),
    stroke([1.2, top + 13], [3.6, top + 13], { colour: inks.ink, width: 0.7 }),
    text([5, top + 13.9], words.pressure, { size: 2.7, colour: inks.ink }),
    ...frame(sheet, top, TREND),
  ];
}

/** Lines for drugs at the left and for events at the right. */
function notes(sheet: Sheet, words: ChartWords, top: number, lines: number): Mark[] {
  const tall = LINE_HEAD + lines * LINE;
  const half = sheet.width * 0.54;
  const at = { drug: 12, by: half - 12, event: half, what: half + 12 };
  const title = (x: number, label: string) =>
    text([x + 0.9, top + 3.3], label, { size: 2.7, weight: 'bold', colour: inks.ink });
  return [
    title(0, words.at),
    title(at.drug, words.drug),
    title(at.by, words.by),
    title(at.event, words.at),
    title(at.what, words.event),
    ...Array.from({ length: lines }, (_, i) =>
      stroke(
        [0, top + LINE_HEAD + i * LINE],
        [sheet.width, top + LINE_HEAD + i * LINE],
        i === 0 ? middling : fine,
      ),
    ),
    ...[at.drug, at.by, at.what].map((x) => stroke([x, top], [x, top + tall], fine)),
    stroke([at.event, top], [at.event, top + tall], bold),
    {
      kind: 'line',
      points: [...rectangle(0, top, sheet.width, tall), [0, top]],
      stroke: bold,
    },
  ];
}
