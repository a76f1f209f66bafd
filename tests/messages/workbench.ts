import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { showProblems, showWarnings, type Terminal } from '../../src/cli/terminal.js';
import { type Content, loadContent } from '../../src/publish/content.js';
import { disk } from '../../src/publish/disk.js';
import { house } from '../../src/publish/house.js';
import { loadLibrary } from '../../src/publish/library/library.js';
import { bad, type Outcome, type Warning } from '../../src/record/problem.js';
import { root, spawned, thrice } from '../cli/thrice.js';
import { TestClinic } from '../publish/clinic.js';

export const RECORD = 'cases/clover/case.yaml';
export const VITALS = 'cases/clover/vitals.csv';

const listening = (said: string[]): Terminal => ({
  out: () => {},
  err: (text) => said.push(text),
  ask: async () => null,
  progress: null,
});

/** A clinic of one case and a copy of the content, to be broken; what is said of them names no folder of this machine. */
export class Workbench {
  readonly clinic = new TestClinic('clover');
  private copied: string | null = null;

  /** The copy is made where it is asked for. */
  get content(): string {
    if (this.copied === null) {
      this.copied = mkdtempSync(join(tmpdir(), 'content-'));
      cpSync(house.content, this.copied, { recursive: true });
    }
    return this.copied;
  }

  /** Replaces a text of the case's record. */
  record(from: string | RegExp, to: string): void {
    this.clinic.edit(RECORD, from, to);
  }

  /** Puts a file into the clinic's folder. */
  put(path: string, text: string | Uint8Array): string {
    const file = this.clinic.path(path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
    return file;
  }

  /** Replaces a text of the content. */
  words(path: string, from: string | RegExp, to: string): void {
    const file = join(this.content, path);
    const text = readFileSync(file, 'utf8');
    const changed = text.replace(from, to);
    if (changed === text) throw new Error(`${path} holds no "${from}"`);
    writeFileSync(file, changed);
  }

  check = (): Promise<string> => this.say('check', this.clinic.folder);
  build = (out = this.clinic.out): Promise<string> =>
    this.say('build', this.clinic.folder, '--out', out);
  strip = (file: string, ...more: string[]): Promise<string> =>
    this.say('strip', this.clinic.path(file), '--species', 'dog', '--weight', '18kg', ...more);

  /** What a command says. */
  async say(...words: string[]): Promise<string> {
    const { out, err } = await thrice(...words);
    return this.plain(`${out}\n${err}`);
  }

  /** What a command says in a process of its own, started by a program that is given its words. */
  apart(words: readonly string[], options: object): string {
    return this.plain(spawned(words, options).err);
  }

  /** How the command shows what a reader gives. */
  shown(outcome: Outcome<unknown>): string {
    const said: string[] = [];
    if (!outcome.ok) showProblems(outcome.problems, listening(said));
    return this.plain(said.join('\n'));
  }

  /** How the command shows warnings. */
  warned(warnings: readonly Warning[]): string {
    const said: string[] = [];
    showWarnings(warnings, listening(said));
    return this.plain(said.join('\n'));
  }

  /** The content and its explanations, as every command reads them. */
  read(): string {
    const effects = disk(() => {});
    const content = loadContent(this.content, effects);
    return this.shown(
      content.ok
        ? loadLibrary(this.content, content.value as Content, effects)
        : bad(...content.problems),
    );
  }

  remove(): void {
    this.clinic.remove();
    if (this.copied !== null) rmSync(this.copied, { recursive: true });
  }

  plain(text: string): string {
    return text
      .replaceAll(this.clinic.folder, 'my-clinic')
      .replaceAll(`${this.clinic.home}/`, '')
      .replaceAll(this.copied ?? house.content, 'content')
      .replaceAll(root, '');
  }
}
