import { type BlockLevels, localQrsLevel } from '../quality/qrs-level.js';
import type { ReadableLead } from '../quality/readable-lead.js';

/** One lead made ready for the search: everything on the grid of `searchRate`, NaN where unreadable. */
export interface SearchLead {
  /** In mV at the lead's own rate. */
  readonly samples: Float64Array;
  readonly samplingRate: number;
  /** In mV on the grid. */
  readonly grid: Float64Array;
  /** Root mean square slope in the QRS band, mV/s, on the grid. */
  readonly steepness: Float64Array;
  /** The steepness a QRS is likely to have around a grid position, mV/s. */
  readonly level: BlockLevels;
  /** Between 2 and 36 Hz, free of wander and most mains: shapes are compared on this; mV on the grid. */
  readonly shape: Float64Array;
}

/** A lead made ready for the search for beats: its steepness gets a usual height around each place. */
export function searchLead({ channel, grid, steepness, shape }: ReadableLead): SearchLead {
  return {
    samples: channel.samples,
    samplingRate: channel.samplingRate,
    grid,
    steepness,
    level: localQrsLevel(steepness),
    shape,
  };
}
