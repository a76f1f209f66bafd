/// <reference path="../../src/publish/html/eleventy.d.ts" />
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import type { PrintedCase } from '../../src/publish/print-case.js';
import type { Outcome } from '../../src/record/problem.js';

/** What `node measure-owner-sheet.js <copies> <rounds>` prints; CPU s of one sheet, the least of all rounds. */
export interface OwnerSheetCost {
  readonly sheets: number;
  /** The first of all, nothing warm: PDF and calendar. */
  readonly first: number;
  readonly pdfAndCalendar: number;
  readonly html: number;
  /** The same pages printed by a browser that is warm, all of its processes; null where there is none. */
  readonly browser: number | null;
}

const CHROMIUM = '/usr/bin/chromium';
const [copies = 4, rounds = 5] = process.argv.slice(2).map(Number);

// The compiled program itself, since the page's templates are found from where it lies.
const root = fileURLToPath(new URL('../../..', import.meta.url));
const from = (file: string) => import(pathToFileURL(join(root, 'dist', 'publish', file)).href);
const { disk } = (await from('disk.js')) as typeof import('../../src/publish/disk.js');
const { load } = (await from('load.js')) as typeof import('../../src/publish/load.js');
const { printCase } = (await from(
  'print-case.js',
)) as typeof import('../../src/publish/print-case.js');
const { writeSheets } = (await from('trees.js')) as typeof import('../../src/publish/trees.js');

const { cases, content, clinic } = demanded(
  load(
    join(root, 'demo-data'),
    disk(() => undefined),
  ),
);
// Nothing for the public, so that the owner's sheet alone is printed.
const owned = cases.map((one) => ({
  ...one,
  facts: { ...one.facts, published: null },
}));
const all = Array.from({ length: copies }, (_, copy) =>
  owned.map((one) => ({ ...one, name: `${one.name}-${copy}` })),
).flat();
const folder = mkdtempSync(join(tmpdir(), 'thrice-bench-'));

try {
  const language = clinic.languages[0] as string;
  const printed: PrintedCase[] = [];
  const print = async () => {
    printed.length = 0;
    for (const one of all) printed.push(demanded(await printCase(one, content, language, null)));
  };
  const first = await cpuOf(async () => {
    await printCase(owned[0]!, content, language, null);
  });
  const write = () => writeSheets(printed, folder);
  const costs = { print: Number.POSITIVE_INFINITY, write: Number.POSITIVE_INFINITY };
  for (let round = 0; round <= rounds; round++) {
    const [printing, writing] = [await cpuOf(print), await cpuOf(write)];
    // The first round warms up.
    if (round === 0) continue;
    costs.print = Math.min(costs.print, printing);
    costs.write = Math.min(costs.write, writing);
  }
  const cost: OwnerSheetCost = {
    sheets: all.length,
    first,
    pdfAndCalendar: costs.print / all.length,
    html: costs.write / all.length,
    browser: existsSync(CHROMIUM) ? await byBrowser(printed) : null,
  };
  console.log(JSON.stringify(cost));
} finally {
  rmSync(folder, { recursive: true, force: true });
}

/** CPU seconds of the whole process, all threads, that a task takes. */
async function cpuOf(task: () => Promise<void>): Promise<number> {
  const before = process.cpuUsage();
  await task();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}

/** CPU seconds of one sheet: its page opened and printed, in a browser that has printed the same before. */
async function byBrowser(printed: readonly PrintedCase[]): Promise<number> {
  const browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
  try {
    const session = await browser.newBrowserCDPSession();
    // Told by the browser itself; processes that end in between would be missed, so one page is kept for all.
    const used = async () => {
      const { processInfo } = await session.send('SystemInfo.getProcessInfo');
      return processInfo.reduce((sum, { cpuTime }) => sum + cpuTime, 0);
    };
    const page = await browser.newPage();
    const pages = printed.flatMap(({ home }) =>
      home ? [pathToFileURL(join(folder, `${home.owner.address}.html`)).href.toString()] : [],
    );
    let least = Number.POSITIVE_INFINITY;
    for (let round = 0; round < 3; round++) {
      const before = await used();
      for (const address of pages) {
        await page.goto(address);
        const bytes = await page.pdf({ preferCSSPageSize: true, printBackground: true });
        if (bytes.length < 1000) throw new Error(`nothing was printed of ${address}`);
      }
      const cost = (await used()) - before;
      if (round > 0) least = Math.min(least, cost);
    }
    return least / pages.length;
  } finally {
    await browser.close();
  }
}

function demanded<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
}
