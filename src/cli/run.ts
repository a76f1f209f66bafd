import { readFileSync } from 'node:fs';
import { house } from '../publish/house.js';
import { buildCommand } from './build-command.js';
import { checkCommand } from './check-command.js';
import type { Command } from './command.js';
import { factsCommand } from './facts-command.js';
import { HELP } from './help.js';
import { stripCommand } from './strip-command.js';
import type { Terminal } from './terminal.js';

const COMMANDS: Readonly<Record<string, { readonly does: Command; readonly help: string }>> = {
  build: { does: buildCommand, help: HELP.build },
  check: { does: checkCommand, help: HELP.check },
  strip: { does: stripCommand, help: HELP.strip },
  facts: { does: factsCommand, help: HELP.facts },
};

/** Runs one command line and gives the exit code: 0 done, 1 a problem in the user's files, 2 a command that is not understood. */
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
    terminal.err(`thrice: "${name}" is not a command. Run "thrice --help" for the list.`);
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
  return command.does(rest, terminal);
}

function version(): string {
  return (JSON.parse(readFileSync(house.packageFile, 'utf8')) as { version: string }).version;
}
