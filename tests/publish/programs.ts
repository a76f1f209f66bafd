import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Whether a program of the machine is there; prints why a test is skipped when it is not. */
export function hasProgram(name: string): boolean {
  const found = spawnSync('which', [name]).status === 0;
  if (!found) console.log(`skipped: ${name} is not installed`);
  return found;
}

/** Runs a program over bytes written to a file of their own; `FILE` among the arguments stands for it. */
export function overFile(bytes: Uint8Array, name: string, ...args: string[]) {
  const folder = mkdtempSync(join(tmpdir(), 'thrice-test-'));
  try {
    const file = join(folder, 'file');
    writeFileSync(file, bytes);
    const run = spawnSync(
      name,
      args.map((arg) => (arg === 'FILE' ? file : arg)),
      { maxBuffer: 1 << 26 },
    );
    return { status: run.status, text: `${run.stdout}${run.stderr}`, bytes: run.stdout };
  } finally {
    rmSync(folder, { recursive: true });
  }
}
