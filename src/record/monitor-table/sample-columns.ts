import { shortened } from '../refusal.js';
import type { ChannelName } from '../vocabulary.js';
import { type NamedChannel, namedChannel } from './named-channel.js';
import type { SampleLines } from './sample-lines.js';
import { isUnit, toldUnit } from './sample-units.js';

/** A column of a sample. */
export interface SampleColumn {
  readonly index: number;
  /** What it is called, with the lines of titles above and below; for the reader. */
  readonly title: string;
  /** By what a form names it: its title, or its number where that is empty or stands twice. */
  readonly named: string | number;
  /** What stands below its title where that is a unit. */
  readonly unit: string;
  readonly channel: NamedChannel | null;
  /** Of a part of its cells, how the whole of them is written. */
  readonly written?: string;
  readonly cells: readonly string[];
}

/** A column that a form can take. */
export interface TakenColumn extends SampleColumn {
  readonly channel: NamedChannel;
  readonly readIn: string;
  /** What is guessed about its unit. */
  readonly doubt: string | null;
}

/** A reading with a decimal comma or point. */
const NUMBER = /^-?\d+([.,]\d+)?$/;
/** A reading with a decimal comma. */
const WITH_COMMA = /^-?\d+,\d+$/;

const PRESSURES: readonly ChannelName[] = ['systolic', 'mean', 'diastolic'];

/** The columns of a sample, each with the channel that its titles name. */
export function sampleColumns({ titles, above, below, body }: SampleLines): SampleColumn[] {
  const width = Math.max(titles.cells.length, ...body.slice(0, 1).map(({ cells }) => cells.length));
  const carried = (cells: readonly string[], index: number) =>
    cells.slice(0, index + 1).findLast((cell) => cell !== '') ?? '';
  return Array.from({ length: width }, (_, index) => {
    const own = titles.cells[index] ?? '';
    const under = below[0]?.cells[index] ?? '';
    const hasUnit = isUnit(under);
    const names = [own];
    if (under !== '' && !hasUnit) names.push(`${carried(titles.cells, index)} ${under}`);
    if (above) names.push(`${carried(above.cells, index)} ${own}`);
    const title = names.find((name) => namedChannel(name) !== null) ?? own;
    const isUnique = own !== '' && titles.cells.indexOf(own) === titles.cells.lastIndexOf(own);
    return {
      index,
      title,
      named: isUnique ? own : index + 1,
      unit: hasUnit ? under.replace(/^[([{]|[)\]}]$/g, '') : '',
      channel: namedChannel(title),
      cells: body.map(({ cells }) => cells[index] ?? ''),
    };
  });
}

/** Whether numbers in columns of readings have a decimal comma. */
export const hasDecimalComma = (columns: readonly SampleColumn[]): boolean =>
  columns.some(({ channel, cells }) => channel && cells.some((cell) => WITH_COMMA.test(cell)));

/** The readings of a column. */
const numbersOf = ({ cells }: SampleColumn): number[] =>
  cells.filter((cell) => NUMBER.test(cell)).map((cell) => Number(cell.replace(',', '.')));

/** Cells with digits that are no number, such as `120/60 (80)` or `98*`. */
const isMore = (cell: string): boolean => /\d/.test(cell) && !NUMBER.test(cell);

/** The columns that a form can take, one a channel; what is doubtful about them goes to `doubts`. */
export function takenColumns(columns: readonly SampleColumn[], doubts: string[]): TakenColumn[] {
  const possible = columns.flatMap((column) => withUnit(column, doubts) ?? []);
  const source = pressureSource(possible);
  const ranked = possible
    .filter(({ channel }) => !isPressure(channel) || channel.beside === source)
    .sort((one, other) => one.channel.rank - other.channel.rank);
  const taken = ranked
    .filter(
      ({ channel }, place) => place === ranked.findIndex((one) => isSame(one.channel, channel)),
    )
    .sort((one, other) => one.index - other.index);
  for (const one of taken) {
    if (one.doubt !== null) doubts.push(one.doubt);
    const rest = possible.filter((other) => other !== one && isSame(other.channel, one.channel));
    if (rest.length === 0) continue;
    const said = ({ title, index }: SampleColumn) =>
      rest.some((other) => other.title === one.title)
        ? `"${title}" in column ${index + 1}`
        : `"${title}"`;
    doubts.push(
      `${said(one)} is taken for ${one.channel.channel}, and not ${rest.map(said).join(', ')}`,
    );
  }
  return taken;
}

const isSame = (one: NamedChannel, other: NamedChannel): boolean => one.channel === other.channel;
const isPressure = ({ channel }: NamedChannel): boolean => PRESSURES.includes(channel);

/** Systole, diastole and mean are taken from one way to measure: that which tells most of them, of two the first. */
function pressureSource(columns: readonly TakenColumn[]): string | undefined {
  const told = new Map<string, Set<ChannelName>>();
  for (const { channel } of columns.filter((column) => isPressure(column.channel))) {
    const channels = told.get(channel.beside) ?? new Set();
    told.set(channel.beside, channels.add(channel.channel));
  }
  return [...told].sort(([, one], [, other]) => other.size - one.size)[0]?.[0];
}

/** A column with the unit of its readings; null where no form reads it. */
function withUnit(column: SampleColumn, doubts: string[]): TakenColumn | null {
  const { title, channel, cells } = column;
  const several = cells.find(isMore);
  const numbers = numbersOf(column);
  const isBlank = cells.every((cell) => !/[\p{L}\d]/u.test(cell));
  if (several !== undefined && (channel || /^\d+ ?\/ ?\d+/.test(several))) {
    doubts.push(
      `"${title}" has cells with more than a number (${shortened(several)}), which no form reads: export them apart`,
    );
  }
  // Words alone, such as a name under "Resp.", are no readings.
  if (!channel || (numbers.length === 0 && !isBlank)) return null;
  const unit = toldUnit(withUnitTold(column), channel.channel, numbers);
  if ('foreign' in unit) {
    const how =
      channel.channel === 'EtCO2' && unit.foreign.includes('%')
        ? 'which is read only where the form says what the percent are of: see "EtCO2 in percent" in the guide'
        : `which no form reads for ${channel.channel}`;
    doubts.push(`"${title}" is told in ${unit.foreign}, ${how}`);
    return null;
  }
  if ('told' in unit) return { ...column, channel, readIn: unit.told, doubt: null };
  const told = unit.said === '' ? 'is not written' : `is written "${unit.said}"`;
  const orElse = unit.orElse === undefined ? '' : `, and it may be ${unit.orElse}`;
  const doubt = `the unit of "${title}" ${told}; ${unit.guessed} is guessed${orElse}`;
  return { ...column, channel, readIn: unit.guessed, doubt };
}

/** A title with the unit that stands below it or in the cells. */
function withUnitTold({ title, unit, written = '', channel }: SampleColumn): string {
  const alone = `${channel?.channel} `;
  const inCells = written.startsWith(alone) ? written.slice(alone.length) : '';
  const told = unit || (/^[\p{L}°%]/u.test(inCells) ? inCells : '');
  return told === '' ? title : `${title} [${told}]`;
}
