import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, it } from 'vitest';
import { renderPages } from '../../../src/publish/html/write-pages.js';
import type { ListedSheet } from '../../../src/publish/trees.js';

/** Collects what nothing refers to any more. */
function collectGarbage(): void {
  setFlagsFromString('--expose-gc');
  (runInNewContext('gc') as () => void)();
}

const sheetOf = (patient: string): ListedSheet => ({
  patient,
  owner: 'Wren Alder',
  record: '1',
  procedure: 'spay',
  day: '2026-03-10',
  open: 0,
  sheet: { language: 'English', href: 'a/discharge', chart: 'a/chart.pdf' },
  answers: null,
  state: 'draft',
});

/** Shows a list on the clinic's page, and tells by which reference it can be seen whether the list is still kept. */
async function shown(patient: string): Promise<WeakRef<object>> {
  const data = { sheets: [sheetOf(patient)], earlier: [] };
  const pages = await renderPages({ templates: 'clinic', data, pages: [] });
  expect([...pages.values()].join('')).toContain(patient);
  return new WeakRef(data.sheets);
}

it('keeps nothing of what it has shown, or a collection of a hundred cases fills the memory', async () => {
  const kept = [];
  for (const patient of ['Quorvex', 'Thalmizz', 'Gornpliv']) kept.push(await shown(patient));
  // A weak reference holds what it refers to until the turn in which it was made is over.
  await new Promise(setImmediate);
  collectGarbage();
  expect(kept.map((one) => one.deref())).toEqual([undefined, undefined, undefined]);
});
