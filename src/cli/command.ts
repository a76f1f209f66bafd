import { type ParseArgsConfig, parseArgs } from 'node:util';
import { disk } from '../publish/disk.js';
import type { Effects } from '../publish/effects.js';
import { nearest } from '../record/nearest.js';
import type { Terminal } from './terminal.js';

/** A command takes its own words and gives the exit code. */
export type Command = (words: readonly string[], terminal: Terminal) => Promise<number>;

type Options = NonNullable<ParseArgsConfig['options']>;

/** Reads options and file names; a word that is not understood is shown with the way to the help, and gives null. */
export function readWords<const O extends Options>(
  name: string,
  words: readonly string[],
  options: O,
  files: { readonly least: number; readonly most: number },
  terminal: Terminal,
) {
  try {
    const read = parseArgs({ args: [...words], options, allowPositionals: true, strict: true });
    const { length } = read.positionals;
    if (length >= files.least && length <= files.most) return read;
    const asked = files.least === files.most ? `${files.least}` : `at most ${files.most}`;
    terminal.err(`thrice ${name}: ${asked} file or folder name expected, ${length} found.`);
  } catch (error) {
    const [sentence] = (error as Error).message.split(/\.\s/, 1) as [string];
    const unknown = /^Unknown option '--([^']+)'/.exec(sentence)?.[1];
    const close = unknown === undefined ? null : nearest(unknown, Object.keys(options));
    terminal.err(
      `thrice ${name}: ${sentence.replace(/\.$/, '')}.${close ? ` Did you mean --${close}?` : ''}`,
    );
  }
  terminal.err(`Run "thrice ${name} --help" for how to use it.`);
  return null;
}

/** The real disk, whose progress shows only where somebody watches. */
export const diskFor = (terminal: Terminal): Effects => disk((step) => terminal.progress?.(step));
