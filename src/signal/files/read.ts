import type { Outcome, Problem } from '../../record/problem.js';
import { bad } from '../../record/problem.js';
import { utf8Text } from '../../record/utf8.js';
import type { Waveform } from '../waveform.js';
import { beside } from './beside.js';
import { readWaveformCsv } from './csv.js';
import { readEdf } from './edf.js';
import { MOST_PROBLEMS, refuse } from './refuse.js';
import { readWfdb } from './wfdb.js';
import { readWfdbHeader } from './wfdb-header.js';

/**
 * Reads a waveform file by its extension: `.edf`, `.hea` (with the signal files beside it) or
 * `.csv`. `readBytes` is the only way to the files; `samplingRate` (Hz) is for a CSV without times.
 */
export function readWaveform(
  path: string,
  readBytes: (path: string) => Outcome<Uint8Array>,
  options: { readonly samplingRate?: number } = {},
): Outcome<Waveform> {
  const extension = /\.[^./\\]*$/.exec(path)?.[0].toLowerCase() ?? '';
  if (!['.edf', '.hea', '.csv'].includes(extension)) {
    return bad({
      kind: 'not a waveform file',
      file: path,
      found: extension === '' ? 'a file name without an ending' : `a "${extension}" file`,
      expected: 'a waveform file that ends in .edf, .hea or .csv',
      mend:
        extension === '.dat'
          ? 'Name the .hea file that belongs to it.'
          : 'Export the waveform as EDF, WFDB or CSV.',
    });
  }
  const bytes = readBytes(path);
  if (!bytes.ok) return bytes;
  if (extension === '.edf') return readEdf(bytes.value, path);
  const text = utf8Text(bytes.value, path);
  if (!text.ok) return text;
  return extension === '.csv'
    ? readWaveformCsv(text.value, path, options)
    : readRecord(path, text.value, readBytes);
}

function readRecord(
  path: string,
  text: string,
  readBytes: (path: string) => Outcome<Uint8Array>,
): Outcome<Waveform> {
  const header = readWfdbHeader({ file: path, text });
  if (!header.ok) return header;
  const signals = new Map<string, Uint8Array>();
  const problems: Problem[] = [];
  for (const name of new Set(header.value.signals.map(({ fileName }) => fileName))) {
    const bytes = readBytes(beside(path, name));
    if (bytes.ok) signals.set(name, bytes.value);
    else problems.push(...bytes.problems);
    if (problems.length >= MOST_PROBLEMS) break;
  }
  return problems.length > 0 ? refuse(problems) : readWfdb({ file: path, text }, signals);
}
