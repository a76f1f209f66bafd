import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    /** Where `demoSite` builds the demo clinic. */
    readonly demoFolder: string;
  }
}

/** A folder for the one build of the demo clinic that the tests share. */
export default function demoFolder(project: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'thrice-demo-'));
  project.provide('demoFolder', folder);
  return () => rmSync(folder, { recursive: true, force: true });
}
