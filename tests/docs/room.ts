import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, dirname, join } from 'node:path';
import { answering, program, root } from '../cli/thrice.js';
import { DEMO } from '../publish/clinic.js';

/**
 * A folder in which the commands of one page run, one block after the other, as its reader would type them: `thrice`
 * and `dist/cli/main.js` are the compiled program, and the home folder is the room itself.
 */
export class Room {
  readonly folder = mkdtempSync(join(tmpdir(), 'docs-'));
  readonly #programs = join(this.folder, '.programs');

  constructor() {
    symlinkSync(join(root, 'dist'), join(this.folder, 'dist'));
    this.program('thrice', `exec "${process.execPath}" "${program}" "$@"`);
  }

  /** Puts a clinic with these demo cases into the room. */
  clinic(name: string, ...cases: readonly string[]): void {
    for (const path of ['clinic.yaml', 'formulary.yaml', ...cases.map((one) => `cases/${one}`)]) {
      cpSync(join(DEMO, path), join(this.folder, name, path), { recursive: true });
    }
  }

  /** A program of the room, written for the shell. */
  program(name: string, script: string): void {
    mkdirSync(this.#programs, { recursive: true });
    const file = join(this.#programs, name);
    writeFileSync(file, `#!/bin/sh\n${script}\n`);
    chmodSync(file, 0o755);
  }

  write(path: string, text: string | Uint8Array): void {
    const file = join(this.folder, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
  }

  /** Runs a block in the shell, which stops at the first command that fails, and gives what a reader sees of it. */
  run(block: string, { variables = {}, input = '', folder = this.folder }: Told = {}) {
    const { status, stdout } = spawnSync('sh', ['-e'], {
      cwd: folder,
      encoding: 'utf8',
      // The answers of a command that asks come through a file: standard input is the script itself.
      input: `exec 2>&1 <<'TYPED'\n${input}\nTYPED\n${block}`,
      env: {
        HOME: this.folder,
        PATH: [this.#programs, dirname(process.execPath), process.env.PATH].join(delimiter),
        TZ: process.env.TZ,
        npm_config_update_notifier: 'false',
        NO_COLOR: '1',
        ...variables,
      },
    });
    return { code: status, shown: stdout };
  }

  /** The lines to type in `thrice new` for a case folder of the room, so that each question gets its answer. */
  async typed(folder: string, answers: ReadonlyMap<string, string>): Promise<string> {
    const lines: string[] = [];
    const left = new Set(answers.keys());
    const copy = join(this.folder, '.rehearsed');
    cpSync(join(this.folder, folder.split('/')[0] as string), copy, { recursive: true });
    await answering(
      (question) => {
        const [, field = ''] = /^\n([^\n]*?)( - [^\n]*)?\n/.exec(question) ?? [];
        const line = left.delete(field) ? (answers.get(field) as string) : '';
        if (lines.push(line) > 200) throw new Error(`asked without end, last ${field}`);
        return line;
      },
      'new',
      join(copy, 'cases', 'rehearsed'),
    );
    rmSync(copy, { recursive: true });
    if (left.size > 0) throw new Error(`never asked for: ${[...left].join(', ')}`);
    return lines.join('\n');
  }

  read(path: string): string {
    return readFileSync(join(this.folder, path), 'utf8');
  }

  remove(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }
}

interface Told {
  readonly variables?: Readonly<Record<string, string>>;
  /** What the reader types. */
  readonly input?: string;
  /** Where the reader stands; the room, where nothing is said. */
  readonly folder?: string;
}
