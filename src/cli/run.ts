import { readFileSync } from 'node:fs';
import { house } from '../publish/house.js';
import { nearest } from '../record/nearest.js';
import type { Command } from './command.js';
import { HELP } from './help.js';
import type { Terminal } from './terminal.js';

interface Entry {
  /** Each command brings its own libraries; none waits for those of another. */
  readonly load: () => Promise<Command>;
  readonly help: string;
}

const COMMANDS: Readonly<Record<string, Entry>> = {
  build: { load: async () => (await import('./build-command.js')).buildCommand, help: HELP.build },
  merge: { load: async () => (await import('./merge-command.js')).mergeCommand, help: HELP.merge },
  check: { load: async () => (await import('./check-command.js')).checkCommand, help: HELP.check },
  watch: { load: async () => (await import('./watch-command.js')).watchCommand, help: HELP.watch },
  strip: { load: async () => (await import('./strip-command.js')).stripCommand, help: HELP.strip },
  approve: {
    load: async () => (await import('./approve-command.js')).approveCommand,
    help: HELP.approve,
  },
  key: { load: async () => (await import('./key-command.js')).keyCommand, help: HELP.key },
  new: { load: async () => (await import('./new-command.js')).newCommand, help: HELP.new },
  table: { load: async () => (await import('./table-command.js')).tableCommand, help: HELP.table },
  facts: { load: async () => (await import('./facts-command.js')).factsCommand, help: HELP.facts },
};

/** Runs one command line and gives the exit code, as the help of all commands lists them. */
export async function run(words: readonly string[], terminal: Terminal): Promise<number> {
  const [name, ...rest] = words;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    terminal.out(HELP.all);
    return name === undefined ? 2 : 0;
  }
  if (name === '--version' || name === '-v') {
    terminal.out(`thrice ${version()}`);
    return 0;
  }
  const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (!command) {
    const close = nearest(name, Object.keys(COMMANDS));
    terminal.err(
      `thrice: "${name}" is not a command. ${close ? `Did you mean "${close}"? ` : ''}Run "thrice --help" for the list.`,
    );
    return 2;
  }
  if (rest.includes('--help') || rest.includes('-h')) {
    terminal.out(command.help);
    return 0;
  }
  if (rest.includes('--version')) {
    terminal.out(`thrice ${version()}`);
    return 0;
  }
  const does = await command.load();
  return does(rest, terminal);
}

function version(): string {
  return (JSON.parse(readFileSync(house.packageFile, 'utf8')) as { version: string }).version;
}
