import { type ParseArgsConfig, parseArgs } from 'node:util';
import { Temporal } from 'temporal-polyfill';
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
    terminal.err(`thrice ${name}: ${askedOf(files)} expected, ${length} found.`);
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

/** `1 file or folder name`, `at least 2 file or folder names` */
function askedOf({ least, most }: { readonly least: number; readonly most: number }): string {
  const count =
    least === most
      ? `${least}`
      : most === Number.POSITIVE_INFINITY
        ? `at least ${least}`
        : `at most ${most}`;
  return `${count} file or folder ${/\b1$/.test(count) ? 'name' : 'names'}`;
}

/** Today in a time zone, `YYYY-MM-DD`. */
export const todayIn = (timeZone: string): string => Temporal.Now.plainDateISO(timeZone).toString();

/** The real disk, whose progress shows only where somebody watches. */
export const diskFor = (terminal: Terminal): Effects => disk((step) => terminal.progress?.(step));
