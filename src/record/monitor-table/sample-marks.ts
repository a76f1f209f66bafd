import { toChannelUnit } from '../read-cells.js';
import { POSSIBLE } from '../vitals-rows.js';
import type { ChannelName } from '../vocabulary.js';
import type { TakenColumn } from './sample-columns.js';

/** Marks for missing readings. */
export interface SampleMarks {
  /** In whatever column they stand. */
  readonly everywhere: readonly string[];
  /** In this column alone, by its index. */
  readonly within: ReadonlyMap<number, readonly string[]>;
}

/** Channels that a living patient never has at zero: there a zero is no reading. Common practice. */
const NEVER_ZERO: readonly ChannelName[] = ['SpO2', 'systolic', 'mean', 'diastolic'];

/** What stands in columns of readings without being one: words and signs, and numbers that no instrument can show. */
export function sampleMarks(columns: readonly TakenColumn[], doubts: string[]): SampleMarks {
  const everywhere = new Set<string>();
  const within = new Map<number, readonly string[]>();
  const impossible = new Set<string>();
  for (const { index, channel, readIn, cells, title } of columns) {
    const [least, most] = POSSIBLE[channel.channel];
    const marks = new Set<string>();
    for (const cell of cells) {
      if (cell === '' || cell === '-') continue;
      if (!/\d/.test(cell)) everywhere.add(cell);
      const number = Number(cell.replace(',', '.'));
      const value = toChannelUnit(number, readIn);
      if (number < 0 && value < least) impossible.add(cell);
      else if (value < least || value > most) marks.add(cell);
      else if (number === 0 && NEVER_ZERO.includes(channel.channel)) marks.add(cell);
    }
    // Many numbers that cannot be are a wrong unit or a wrong column, and no marks.
    if (marks.size > MOST_MARKS) {
      doubts.push(
        `"${title}" has cells that no instrument shows in ${readIn} (${[...marks].slice(0, MOST_MARKS).join(' ')} …): see its unit`,
      );
    } else if (marks.size > 0) {
      within.set(index, [...new Set([...(within.get(index) ?? []), ...marks])]);
      doubts.push(`${[...marks].join(' ')} in "${title}" is taken for no reading`);
    }
  }
  if (everywhere.size > 0) {
    doubts.push(
      `cells without a number (${[...everywhere].join(' ')}) are taken for missing readings`,
    );
  }
  if (impossible.size > 0) {
    doubts.push(
      `numbers that no instrument shows (${[...impossible].join(' ')}) are taken for missing readings`,
    );
  }
  return { everywhere: [...everywhere, ...impossible], within };
}

/** A monitor has one or two marks. Not a clinical number. */
const MOST_MARKS = 3;
