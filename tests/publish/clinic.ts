import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { root } from '../cli/thrice.js';

export const DEMO = join(root, 'demo-data');
export const CASES = readdirSync(join(DEMO, 'cases')).sort();

/** A clinic of a few demo cases in a folder of its own, to be damaged. */
export class TestClinic {
  readonly home = mkdtempSync(join(tmpdir(), 'clinic-'));
  readonly folder = join(this.home, 'clinic');
  readonly out = join(this.home, 'out');

  constructor(...names: string[]) {
    this.restoreClinic();
    for (const name of names) this.restore(name);
  }

  path(...parts: string[]): string {
    return join(this.folder, ...parts);
  }

  /** Puts back what all cases share. */
  restoreClinic(): void {
    for (const file of ['clinic.yaml', 'formulary.yaml']) {
      cpSync(join(DEMO, file), this.path(file));
    }
  }

  /** Puts a case back as it is in the demo. */
  restore(name: string): void {
    rmSync(this.path('cases', name), { recursive: true, force: true });
    cpSync(join(DEMO, 'cases', name), this.path('cases', name), { recursive: true });
  }

  /** Takes in a case folder under another name. */
  adopt(from: string, name: string): void {
    cpSync(from, this.path('cases', name), { recursive: true });
  }

  readOut(path: string): string {
    return readFileSync(join(this.out, path), 'utf8');
  }

  /** Replaces a text that must be there. */
  edit(file: string, from: string | RegExp, to: string): void {
    const text = readFileSync(this.path(file), 'utf8');
    const there = typeof from === 'string' ? text.includes(from) : text.search(from) >= 0;
    if (!there) throw new Error(`${file} holds no "${from}"`);
    writeFileSync(this.path(file), text.replace(from, to));
  }

  /** 1-based line on which a text first stands. */
  lineOf(file: string, text: string): number {
    const lines = readFileSync(this.path(file), 'utf8').split('\n');
    const index = lines.findIndex((line) => line.includes(text));
    if (index < 0) throw new Error(`${file} holds no "${text}"`);
    return index + 1;
  }

  /** Everything in its home: the records, the output and whatever a build might leave beside them, but for its cache. */
  bytes(): Record<string, string> {
    return Object.fromEntries(
      Object.entries(bytesIn(this.home)).filter(([path]) => !path.startsWith(CACHE)),
    );
  }

  remove(): void {
    rmSync(this.home, { recursive: true, force: true });
  }
}

/** Each file and folder under a folder with a digest of its bytes. */
export function bytesIn(folder: string): Record<string, string> {
  return Object.fromEntries(
    readdirSync(folder, { withFileTypes: true, recursive: true })
      .map((entry) => {
        const path = join(entry.parentPath, entry.name);
        const digest = entry.isFile()
          ? createHash('sha256').update(readFileSync(path)).digest('hex')
          : 'folder';
        return [relative(folder, path), digest] as const;
      })
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );
}

/** All files under a folder, as paths. */
export const filesIn = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();

/** Beginning of the name of the folder in which builds keep what they have made. */
const CACHE = '.thrice-cache-';

/** Temporary folders that a build left beside its output. */
export const strays = (folder: string): string[] =>
  readdirSync(folder).filter((name) => name.startsWith('.thrice-') && !name.startsWith(CACHE));
