import { CHANNELS, type ChannelName } from '../vocabulary.js';

/** How a cell is written that holds more than a number, such as `systolic/diastolic (mean)` or `heart rate bpm`; plain data. */
export interface CellForm {
  /** As the clinic's file writes it. */
  readonly pattern: string;
  readonly channels: readonly ChannelName[];
  /** A whole cell, with a group for each channel. */
  readonly whole: RegExp;
}

/** What a column or a name tells. */
export const channelsOf = ({ channel, written }: Told): readonly ChannelName[] =>
  channel === undefined ? (written?.channels ?? []) : [channel];

interface Told {
  readonly channel?: ChannelName | undefined;
  readonly written?: CellForm | undefined;
}

/** What stands in the place of each channel: a number or a mark for a missing one; null for a cell of another form. */
export function partsOf(
  cell: string,
  { channels, whole }: CellForm,
): ReadonlyMap<ChannelName, string> | null {
  const found = whole.exec(cell.trim());
  return found && new Map(channels.map((channel, at) => [channel, found[at + 1] as string]));
}

/** The names of channels within a pattern; none is the beginning of another. */
const NAMES = new RegExp(`\\b(${CHANNELS.join('|')})\\b`, 'g');

/**
 * A form from its pattern: names of channels stand for their readings, all other signs for themselves, and spaces may be
 * more or fewer. Otherwise what is wrong with it.
 */
export function cellForm(pattern: string): CellForm | string {
  const pieces = pattern.trim().split(NAMES);
  const channels = pieces.filter((_, at) => at % 2 === 1) as ChannelName[];
  const signs = pieces.filter((_, at) => at % 2 === 0);
  if (channels.length === 0) return `it names none of ${CHANNELS.join(', ')}`;
  if (new Set(channels).size < channels.length) return 'it names a channel twice';
  if (signs.slice(1, -1).some((between) => between.trim() === '')) {
    return 'nothing but a space stands between two readings';
  }
  if (channels.length === 1 && signs.every((sign) => sign.trim() === '')) {
    return 'a cell with nothing but a reading needs no form: name its "channel"';
  }
  const whole = new RegExp(`^${pieces.map(pieceOf(signs)).join('')}$`);
  return { pattern, channels, whole };
}

/** A number, or a mark without digits; neither holds a sign that stands between the readings. */
function pieceOf(signs: readonly string[]) {
  const taken = [...new Set(signs.join('').replace(/[\s\p{L}]/gu, ''))].map(escaped).join('');
  const minus = taken.includes('-') ? '' : '-?';
  const reading = String.raw`(${minus}\d+(?:[.,]\d+)?|[^\d\s${taken}]*)`;
  return (piece: string, at: number): string => (at % 2 === 1 ? reading : signsOf(piece));
}

const signsOf = (between: string): string => {
  const signs = [...between.replace(/\s/g, '')];
  return signs.length === 0 ? '' : ['', ...signs.map(escaped), ''].join(String.raw`\s*`);
};

const escaped = (sign: string): string => sign.replace(/[.*+?^${}()|[\]\\/-]/g, '\\$&');
