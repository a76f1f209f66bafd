import { chmodSync, existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

/** Leaves a folder and all in it to its owner alone: nobody else of the machine may list or read it. */
export function ownerOnly(folder: string): void {
  if (!existsSync(folder)) return;
  chmodSync(folder, 0o700);
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    chmodSync(join(entry.parentPath, entry.name), entry.isDirectory() ? 0o700 : 0o600);
  }
}
