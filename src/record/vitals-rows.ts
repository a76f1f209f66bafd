import type { CellPlace } from './monitor-table/cell-place.js';
import type { ChannelName } from './vocabulary.js';

/** One line of the vitals file. */
export interface VitalsRow {
  readonly line: number;
  /** Minutes since the start of anesthesia; negative before it. */
  readonly minute: number;
  /** In the channel's own unit (see `CHANNEL_UNITS`); a channel without a reading is absent. */
  readonly values: Readonly<Partial<Record<ChannelName, number>>>;
  /** The lines of its readings, where they do not all stand on the same. */
  readonly lines?: Readonly<Partial<Record<ChannelName, number>>>;
}

export interface VitalsTable {
  readonly channels: readonly ChannelName[];
  readonly rows: readonly VitalsRow[];
  /** Lines of a table kept by hand that repeat the line before letter by letter. */
  readonly repeated?: readonly number[];
}

/** The unit that a channel is kept in. */
export const CHANNEL_UNITS: Readonly<Record<ChannelName, string>> = {
  systolic: 'mmHg',
  diastolic: 'mmHg',
  mean: 'mmHg',
  'heart rate': '/min',
  SpO2: '%',
  EtCO2: 'mmHg',
  breaths: '/min',
  temperature: 'C',
  agent: '%',
};

/** The units that a table may give a channel in; the first is the usual one. */
export const ACCEPTED_UNITS: Readonly<Record<ChannelName, readonly string[]>> = {
  systolic: ['mmHg', 'kPa'],
  diastolic: ['mmHg', 'kPa'],
  mean: ['mmHg', 'kPa'],
  'heart rate': ['/min'],
  SpO2: ['%', 'fraction'],
  EtCO2: ['mmHg', 'kPa'],
  breaths: ['/min'],
  temperature: ['C', 'F'],
  agent: ['%'],
};

/**
 * What an instrument can show at all, in the channel's unit. Not a clinical range: it only catches a slipped digit or a
 * wrong unit (98.6 in a column headed °C). Source: common practice.
 */
export const POSSIBLE: Readonly<Record<ChannelName, readonly [number, number]>> = {
  systolic: [0, 350],
  diastolic: [0, 300],
  mean: [0, 320],
  'heart rate': [0, 500],
  SpO2: [0, 100],
  EtCO2: [0, 150],
  breaths: [0, 400],
  temperature: [5, 45],
  agent: [0, 20],
};

export interface ColumnPlan {
  readonly channel: ChannelName;
  readonly index: number;
  readonly unit: string;
  /** A number in that unit to the channel's own. */
  readonly toOwn: (shown: number) => number;
  /** Whether a cell of this column, or the part of it, tells no reading. */
  readonly isMissing: (cell: string) => boolean;
  /** Where a cell holds more than the reading: how it is written, and the part that is this channel's. */
  readonly within?: {
    readonly pattern: string;
    readonly part: (cell: string) => string | null;
  };
}

export interface Line {
  /** 1-based line of the file. */
  readonly line: number;
  readonly cells: readonly string[];
  /** In a table of fixed widths: the column whose beginning falls within a word of this line. */
  readonly torn?: number;
}

/** A time that is not understood: where it stands, and what it was read as where that makes the difference. */
export interface NoTime {
  readonly at: number;
  readonly expected: string;
  readonly readAs?: string;
  /** Where it is not the line that is to be mended. */
  readonly mend?: string;
}

/** The cells of a line to minutes since the start of anesthesia; lines come in their order. */
export type MinuteReader = (cells: readonly string[]) => number | NoTime;

/** How the cells of a table are read, and what is said of those that cannot be. */
export interface TablePlan {
  readonly titles: readonly string[];
  /** The column that a time out of order is reported at. */
  readonly timeAt: number;
  /** NaN where the cell holds no number. */
  readonly number: (cell: string) => number;
  /** What a cell of readings must hold, and what to do about one that does not. */
  readonly expected: string;
  readonly mend: (cell: string) => string;
  /** What to do about times of many lines that are not understood. */
  readonly clockMend: string;
  /** What to do about many lines that go back in time. */
  readonly orderMend: string;
  /** How a cell is told to hold no reading. */
  readonly noReading: (cell: string) => string;
  readonly place: CellPlace;
  /** What more cells than titles usually come from. */
  readonly surplus: string;
}

/** A table with a column for each channel. */
export interface RowPlan extends TablePlan {
  readonly columns: readonly ColumnPlan[];
  readonly minute: MinuteReader;
}
