import { unitOf } from '../quantity.js';
import { ACCEPTED_UNITS, type Line } from '../vitals-rows.js';
import type { ChannelName } from '../vocabulary.js';
import { type ClockForm, clockForm, readClock } from './clock-form.js';
import { ELAPSED, type ENCODINGS, SEPARATORS } from './table-form.js';
import { cellsOf, decoded } from './table-text.js';

/** What a sample of a monitor's table looks like; whatever was guessed is a doubt for the reader. */
export interface ProposedForm {
  readonly encoding: (typeof ENCODINGS)[number];
  readonly separator: keyof typeof SEPARATORS;
  readonly decimal: 'point' | 'comma';
  readonly titlesOn: number;
  /** The first line of readings, where a line of units stands below the titles; else null. */
  readonly readingsFrom: number | null;
  readonly day: ProposedTime | null;
  readonly time: ProposedTime | null;
  readonly missing: readonly string[];
  readonly columns: readonly {
    readonly channel: ChannelName;
    readonly column: string;
    readonly unit: string;
  }[];
  /** Titles that were not understood. */
  readonly leftOver: readonly string[];
  readonly doubts: readonly string[];
}

interface ProposedTime {
  readonly column: string;
  readonly written: string;
}

/** Words in titles, as the trade abbreviates the measurements in English, Spanish, German and French. Common practice. */
const TITLES: readonly (readonly [ChannelName, RegExp])[] = [
  ['EtCO2', /et ?co2|end.?tidal|co2 ?e[ts]|capno/],
  ['SpO2', /spo2|sao2|satura|^sat\b/],
  [
    'systolic',
    /(^|\W|_)(sys|sap|psa|pas)|sist[oó]l|systol|\b(nibp|ibp|abp|pni)[\W_]*s\b|\bbp[\W_]+s\b/,
  ],
  [
    'diastolic',
    /(^|\W|_)(dia|dap|pad)|di[aá]st[oó]l|diastol|\b(nibp|ibp|abp|pni)[\W_]*d\b|\bbp[\W_]+d\b/,
  ],
  [
    'mean',
    /(^|\W|_)(mean|map|mbp|media|mittel|moy|pam)|\b(nibp|ibp|abp|pni)[\W_]*m\b|\bbp[\W_]+m\b/,
  ],
  ['breaths', /(^|\W|_)(aw ?)?(rr|resp|fr|af|breath|atem)/],
  ['temperature', /temp|(^|\W|_)t[0-9]?(\W|$)/],
  ['agent', /agent|\biso|sevo|desflu|halo|vapo/],
  ['heart rate', /(^|\W|_)(hr|pr|fc|hf|puls|bpm)|heart|card|herz/],
];

const CLOCKS = [
  'yyyy-MM-dd HH:mm:ss',
  'yyyy-MM-dd HH:mm',
  'yyyy-MM-ddTHH:mm:ss',
  'yyyy-MM-ddTHH:mm:ssXXX',
  'yyyy-MM-ddTHH:mmXXX',
  'yyyy-MM-dd HH:mm:ssXXX',
  'yyyy/MM/dd HH:mm:ss',
  'yyyy/MM/dd HH:mm',
  'dd.MM.yyyy HH:mm:ss',
  'dd.MM.yyyy HH:mm',
  'd.M.yyyy H:mm:ss',
  'd.M.yyyy H:mm',
  'd.M.yy H:mm:ss',
  'd.M.yy H:mm',
  'd/M/yyyy H:mm:ss',
  'd/M/yyyy H:mm',
  'M/d/yyyy h:mm:ss a',
  'M/d/yyyy h:mm a',
  'M/d/yyyy H:mm:ss',
  'M/d/yyyy H:mm',
  'd-M-yyyy H:mm:ss',
  'd-M-yyyy H:mm',
  'H:mm:ss',
  'H:mm',
  'h:mm:ss a',
  'h:mm a',
] as const;
const DAYS = [
  'yyyy-MM-dd',
  'yyyy/MM/dd',
  'dd.MM.yyyy',
  'd.M.yyyy',
  'd.M.yy',
  'd/M/yyyy',
  'M/d/yyyy',
  'd-M-yyyy',
] as const;

/** A reading. */
const NUMBER = /^-?\d+([.,]\d+)?$/;

/** Looks at so many lines below the titles. Not a clinical number. */
const LOOK_AT = 500;

/** Proposes how a table is to be read; null where it cannot be cut into columns with titles. */
export function proposeForm(bytes: Uint8Array): ProposedForm | null {
  const encoding = encodingOf(bytes);
  const text = decoded(bytes, encoding, '');
  if (!text.ok) return null;
  const cut = separatorOf(text.value);
  if (!cut) return null;
  const [titles, ...rest] = cut.lines;
  if (!titles) return null;
  const wide = rest.filter(({ cells }) => cells.length === titles.cells.length);
  const units = wide.length > 1 ? unitsIn(wide[0] as Line) : null;
  const body = wide.slice(units ? 1 : 0, LOOK_AT);
  const column = (index: number) => body.map(({ cells }) => cells[index] as string);
  const doubts: string[] = [];
  const timed = timeOf(titles.cells, column, doubts);
  const used = new Set([timed.day?.column, timed.time?.column]);
  const decimal = body.some(({ cells }) =>
    cells.some((cell, index) => !used.has(titles.cells[index]) && /^-?\d+,\d+$/.test(cell)),
  )
    ? 'comma'
    : 'point';
  const columns: ProposedForm['columns'][number][] = [];
  const leftOver: string[] = [];
  const missing = new Set<string>();
  titles.cells.forEach((title, index) => {
    if (used.has(title) || title === '') return;
    const channel = channelOf(title);
    if (!channel || columns.some((one) => one.channel === channel)) {
      leftOver.push(title);
      return;
    }
    const cells = column(index);
    const several = cells.find((cell) => /\d/.test(cell) && !NUMBER.test(cell));
    if (several !== undefined) {
      doubts.push(
        `"${title}" has cells with more than a number (${several}), which no form reads: export them apart`,
      );
    }
    if (several !== undefined && !cells.some((cell) => NUMBER.test(cell))) {
      leftOver.push(title);
      return;
    }
    const { unit, told } = unitIn(
      units ? `${title} ${units[index]}` : title,
      channel,
      cells,
      decimal,
    );
    if (!told) doubts.push(`the unit of "${title}" is not written; ${unit} is guessed`);
    columns.push({ channel, column: title, unit });
    for (const cell of cells) {
      if (cell !== '' && cell !== '-' && !/\d/.test(cell)) missing.add(cell);
    }
  });
  if (missing.size > 0) {
    doubts.push(
      `cells without a number (${[...missing].join(' ')}) are taken for missing readings`,
    );
  }
  return {
    encoding,
    separator: cut.separator,
    decimal,
    titlesOn: titles.line,
    readingsFrom: units ? (body[0] as Line).line : null,
    ...timed,
    missing: [...missing],
    columns,
    leftOver,
    doubts,
  };
}

/** The cells of a line below the titles that tells units: it has words and no digit, and readings have digits. */
function unitsIn({ cells }: Line): readonly string[] | null {
  return cells.some((cell) => /\p{L}|%/u.test(cell)) && !cells.some((cell) => /\d/.test(cell))
    ? cells
    : null;
}

function encodingOf(bytes: Uint8Array): ProposedForm['encoding'] {
  const [a, b] = bytes;
  if (a === 0xff && b === 0xfe) return 'utf-16le';
  if (a === 0xfe && b === 0xff) return 'utf-16be';
  return decoded(bytes, 'utf-8', '').ok ? 'utf-8' : 'windows-1252';
}

/** The separator that cuts most lines into the same number of columns, and the lines from the titles on. */
function separatorOf(text: string) {
  let best: { separator: keyof typeof SEPARATORS; lines: Line[]; score: number } | null = null;
  for (const [separator, sign] of Object.entries(SEPARATORS)) {
    const lines = cellsOf(text, sign, '');
    if (!lines.ok) continue;
    const widths = new Map<number, number>();
    for (const { cells } of lines.value) {
      widths.set(cells.length, (widths.get(cells.length) ?? 0) + 1);
    }
    // Above the titles may stand many lines that are no table.
    const [width, count] = [...widths]
      .filter(([cells]) => cells > 1)
      .sort((one, other) => other[1] - one[1])[0] ?? [1, 0];
    if (count < 2) continue;
    const start = lines.value.findIndex(({ cells }) => cells.length === width);
    const score = count * width;
    if (!best || score > best.score) {
      best = {
        separator: separator as keyof typeof SEPARATORS,
        lines: lines.value.slice(start),
        score,
      };
    }
  }
  return best;
}

function timeOf(
  titles: readonly string[],
  column: (index: number) => readonly string[],
  doubts: string[],
): Pick<ProposedForm, 'day' | 'time'> {
  const fitting = (patterns: readonly string[], index: number) => {
    const cells = column(index).filter((cell) => cell !== '');
    if (cells.length === 0) return [];
    return patterns.filter((pattern) => {
      const form = clockForm(pattern) as ClockForm;
      return cells.every((cell) => readClock(form, cell) !== null);
    });
  };
  const choose = (patterns: readonly string[], title: string): ProposedTime => {
    const [first, ...others] = patterns as [string, ...string[]];
    const otherDay = others.find((one) => /^M/.test(one) !== /^M/.test(first));
    if (otherDay) doubts.push(`"${title}" may also be written ${otherDay}: day or month first?`);
    return { column: title, written: first };
  };
  let day: ProposedTime | null = null;
  let time: ProposedTime | null = null;
  titles.forEach((title, index) => {
    const clocks = fitting(CLOCKS, index);
    const days = fitting(DAYS, index);
    if (clocks.length > 0 && !time) time = choose(clocks, title);
    else if (days.length > 0 && !day) day = choose(days, title);
  });
  if (!time) {
    const index = titles.findIndex((title) =>
      /elapsed|time|zeit|tiempo|temps|\bmin\b|\bsec/i.test(title),
    );
    const title = titles[index];
    if (title !== undefined && column(index).every((cell) => /^-?\d+([.,]\d+)?$/.test(cell))) {
      const written = /sec|\bs\b|seg/i.test(title) ? ELAPSED[1] : ELAPSED[0];
      doubts.push(`"${title}" is taken for ${written} from the start of anesthesia`);
      time = { column: title, written };
    }
  }
  return { day, time };
}

function channelOf(title: string): ChannelName | null {
  const plain = title.toLowerCase();
  return TITLES.find(([, words]) => words.test(plain))?.[0] ?? null;
}

/** What parts kilopascals from millimetres of mercury in the middle of a column: 20 kPa are 150 mmHg, and no patient lives at 15 mmHg of CO2. Common practice. */
const KILOPASCALS_UP_TO: Readonly<Partial<Record<ChannelName, number>>> = {
  EtCO2: 12,
  systolic: 35,
  mean: 25,
  diastolic: 20,
};

/** The unit that a title tells; otherwise the one that the numbers suggest. */
function unitIn(
  title: string,
  channel: ChannelName,
  cells: readonly string[],
  decimal: 'point' | 'comma',
): { unit: string; told: boolean } {
  const units = ACCEPTED_UNITS[channel];
  for (const piece of title.split(/[\s()[\]_,;]+/)) {
    const unit =
      unitOf(piece, units) ?? units.find((one) => one.toLowerCase() === piece.toLowerCase());
    if (unit !== undefined) return { unit, told: true };
  }
  const numbers = cells
    .map((cell) => Number(decimal === 'comma' ? cell.replace(',', '.') : cell))
    .filter((number) => Number.isFinite(number) && number > 0)
    .sort((a, b) => a - b);
  const middle = numbers[numbers.length >> 1] ?? 0;
  const parts = KILOPASCALS_UP_TO[channel];
  if (parts !== undefined && middle > 0) {
    return { unit: middle < parts ? 'kPa' : 'mmHg', told: false };
  }
  // 50 parts the two scales: no patient is that warm in °C or that cold in °F. Common practice.
  if (channel === 'temperature') return { unit: middle > 50 ? 'F' : 'C', told: false };
  return { unit: units[0] as string, told: units.length === 1 };
}
