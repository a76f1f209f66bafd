import type { Kilogram } from '../../units/brands.js';
import type { Patient } from '../marked-beat.js';

/** A measure that the table of ranges has. */
export type Ranged =
  | 'P duration'
  | 'P height'
  | 'PR interval'
  | 'QRS duration'
  | 'R height'
  | 'QT interval'
  | 'ST deviation'
  | 'T height'
  | 'T to R'
  | 'electrical axis';

/** Limits in s, mV, share or degrees; null where there is none. They belong to both ends. */
export interface Range {
  readonly low: number | null;
  readonly high: number | null;
  /** Every range here was set up for these animals. */
  readonly of: 'awake animals';
  readonly source: string;
  /** What a reader must know beside it; null where nothing. */
  readonly note: string | null;
}

const table =
  'Normal Electrocardiographic Reference Ranges for Dogs and Cats (Table 2.4), Small Animal Internal Medicine, 6th ed.';

/**
 * The source tells limits for small, large and giant breeds but draws no line between them. Below the
 * first weight a dog counts as small, from the second as large, from the third as giant; our own
 * choice, no source. In between, the wider limit holds, so that no value is called high that is usual
 * in either.
 */
const sizes = { smallBelow: 10, largeFrom: 25, giantFrom: 45 } as const;

type Size = 'small' | 'between' | 'large' | 'giant';

function sizeOf(weight: Kilogram): Size {
  if (weight < sizes.smallBelow) return 'small';
  if (weight < sizes.largeFrom) return 'between';
  return weight < sizes.giantFrom ? 'large' : 'giant';
}

/** The range of a measure in lead II for the patient, or null: rabbits and ferrets have none here. */
export function rangeOf(what: Ranged, { species, weight }: Patient): Range | null {
  if (species === 'cat') return cat[what];
  return species === 'dog' ? dog(what, sizeOf(weight)) : null;
}

function range(low: number | null, high: number | null, note: string | null = null): Range {
  return { low, high, of: 'awake animals', source: table, note };
}

const cat: Readonly<Record<Ranged, Range | null>> = {
  'P duration': range(null, 0.04, 'the source says 0.035 to 0.04 s at most'),
  'P height': range(null, 0.2),
  'PR interval': range(0.05, 0.09),
  'QRS duration': range(null, 0.04),
  'R height': range(null, 0.9),
  'QT interval': range(0.12, 0.18, 'seen from 0.07 to 0.2 s; shorter at faster rates'),
  'ST deviation': range(-0.1, 0.1),
  'T height': range(null, 0.3, 'upward or downward'),
  'T to R': null,
  'electrical axis': range(0, 160),
};

function dog(what: Ranged, size: Size): Range | null {
  switch (what) {
    case 'P duration':
      return size === 'giant'
        ? range(null, 0.05, 'limit of giant breeds, taken as 45 kg and more')
        : range(null, 0.04);
    case 'P height':
      return range(null, 0.4);
    case 'PR interval':
      return range(0.06, 0.13);
    case 'QRS duration':
      return range(null, size === 'small' ? 0.05 : 0.06, sizeNote(size, '0.05 s', '0.06 s'));
    case 'R height':
      return range(null, size === 'small' ? 2.5 : 3, sizeNote(size, '2.5 mV', '3 mV'));
    case 'QT interval':
      return range(0.15, 0.25, 'up to 0.27 s is seen; shorter at faster rates');
    case 'ST deviation':
      return range(-0.2, 0.15);
    case 'T height':
      return null;
    case 'T to R':
      return range(null, 0.25, 'usually; T may point up, down or both ways');
    case 'electrical axis':
      return range(40, 100);
  }
}

function sizeNote(size: Size, small: string, large: string): string {
  const limits = `the source says ${small} for small and ${large} for large breeds`;
  if (size === 'small') return `${limits}; under 10 kg is taken as small`;
  if (size === 'between') return `${limits}; from 10 to 25 kg the wider limit is taken`;
  return `${limits}; 25 kg and more is taken as large`;
}
