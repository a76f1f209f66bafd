import { extname } from 'node:path';
import type { Problem } from '../record/problem.js';

interface Limit {
  /** Bytes. */
  readonly most: number;
  readonly of: string;
  readonly mend: string;
}

const MB = 1_000_000;

const TEXT: Limit = {
  most: 1 * MB,
  of: 'a text file',
  mend: 'Look whether this is the right file: a record, a clinic or a formulary has some kilobytes.',
};
const SAMPLES: Limit = {
  most: 100 * MB,
  of: 'a waveform file',
  mend: 'Export the stretch around the surgery alone, or fewer channels.',
};
const TABLE: Limit = {
  most: 60 * MB,
  of: 'a CSV file',
  mend: 'Export a shorter stretch, or the waveform as EDF, which takes a quarter of the room.',
};

const PHOTO: Limit = {
  most: 40 * MB,
  of: 'a photo',
  mend: 'Save it smaller.',
};

/**
 * Most bytes that are read of a file, by its ending, so that none can fill the memory. Our own choice: 100 MB hold a day
 * of one lead at 500 samples a second and 16 bits (86 MB); 60 MB hold two hours of it as text. No clinical number.
 */
const LIMITS: Readonly<Record<string, Limit>> = {
  '.yaml': TEXT,
  '.yml': TEXT,
  '.md': TEXT,
  '.hea': TEXT,
  '.csv': TABLE,
  '.edf': SAMPLES,
  '.dat': SAMPLES,
  '.jpg': PHOTO,
  '.jpeg': PHOTO,
  '.png': PHOTO,
};

/** The problem of a file that is too large to be read; null where it is not. */
export function tooLarge(file: string, bytes: number): Problem | null {
  const limit = LIMITS[extname(file).toLowerCase()];
  if (!limit || bytes <= limit.most) return null;
  return {
    kind: 'a file that is too large',
    file,
    found: `${(bytes / MB).toFixed(bytes < 10 * MB ? 1 : 0)} MB`,
    expected: `${limit.of} of at most ${limit.most / MB} MB`,
    mend: limit.mend,
  };
}
