import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Found {
  readonly id: string;
  readonly help: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

/** What axe-core finds wrong on a page, all of its rules on: those of WCAG and those of good practice. */
export async function violationsOn(page: Page): Promise<string[]> {
  // Put in by the tool, past the page's own rule that no script may run.
  await page.evaluate(source);
  const found = await page.evaluate<Found[]>(
    `axe.run(document, { resultTypes: ['violations'] }).then(({ violations }) => violations)`,
  );
  return found.flatMap(({ id, help, nodes }) =>
    nodes.map(({ html }) => `${id}: ${help}: ${html.slice(0, 160)}`),
  );
}
