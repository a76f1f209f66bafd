import { cpSync, existsSync } from 'node:fs';
import { join } from 'node:path';
import { bad, good, type Outcome } from '../record/problem.js';
import type { Effects } from './effects.js';
import { type FailedCase, load } from './load.js';
import { openDraft } from './output-folder.js';
import { type PrintedCase, printCase } from './print-case.js';
import { searchPublic } from './search-public.js';
import { writePrivateTree, writePublicTree } from './trees.js';

export interface BuildOptions {
  /** A clinic's folder or one case folder. */
  readonly cases: string;
  readonly out: string;
  /** One bad case stops the build. */
  readonly strict: boolean;
}

export interface BuildReport {
  readonly built: readonly string[];
  readonly failed: readonly FailedCase[];
  /** Failed cases whose last private sheet was kept. */
  readonly kept: readonly string[];
}

/**
 * Builds all documents of a collection into `out/private` and `out/public`. The last output stays whole until the new
 * one is. A case that cannot be read keeps its last private sheet, and is taken out of public, since its consent cannot
 * be read either.
 */
export async function build(
  options: BuildOptions,
  effects: Effects,
): Promise<Outcome<BuildReport>> {
  const loaded = load(options.cases, effects);
  if (!loaded.ok) return loaded;
  const { clinic, content, cases, failed } = loaded.value;
  if (failed.length > 0 && (options.strict || cases.length === 0)) {
    return bad(...failed.flatMap(({ problems }) => problems));
  }
  const draft = openDraft(options.out);
  if (!draft.ok) return draft;
  try {
    const printed: PrintedCase[] = [];
    for (const one of cases) {
      effects.progress(`Printing ${one.name}`);
      printed.push(await printCase(one, content, clinic.languages[0] as string));
    }
    effects.progress('Writing pages');
    const { folder } = draft.value;
    await writePrivateTree(printed, join(folder, 'private'));
    await writePublicTree(printed, join(folder, 'public'));
    const leaks = searchPublic(join(folder, 'public'), cases, printed);
    if (leaks.length > 0) {
      draft.value.discard();
      return bad(...leaks);
    }
    const kept = keepLastSheets(failed, options.out, folder);
    draft.value.publish();
    return good({ built: printed.map(({ name }) => name), failed, kept });
  } catch (error) {
    draft.value.discard();
    throw error;
  }
}

function keepLastSheets(failed: readonly FailedCase[], out: string, folder: string): string[] {
  return failed.flatMap(({ name }) => {
    const last = join(out, 'private', name);
    if (!existsSync(last)) return [];
    cpSync(last, join(folder, 'private', name), { recursive: true });
    return [name];
  });
}
