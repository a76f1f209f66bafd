import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { build } from '../../src/publish/build.js';
import { disk } from '../../src/publish/disk.js';
import { hasProgram, overFile } from './programs.js';

const CHROMIUM = '/usr/bin/chromium';
const demo = fileURLToPath(new URL('../../demo-data', import.meta.url));

let folder: string;
let out: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'thrice-pages-'));
  out = join(folder, 'out');
  const built = await build(
    { cases: demo, out, strict: true },
    disk(() => undefined),
  );
  expect(built).toMatchObject({ ok: true });
}, 60_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const filesIn = (under: string, ending: string) =>
  readdirSync(join(out, under), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
    .map((entry) => join(entry.parentPath, entry.name));

describe.runIf(hasProgram('pdfinfo'))('an owner’s sheet on paper', () => {
  it('has two pages at most, in every demo case', () => {
    const sheets = filesIn('private', '.pdf');
    expect(sheets.length).toBeGreaterThan(5);
    for (const sheet of sheets) {
      const { text } = overFile(readFileSync(sheet), 'pdfinfo', 'FILE');
      const pages = Number(/^Pages:\s+(\d+)$/m.exec(text)?.[1]);
      expect(pages, sheet).toBeGreaterThanOrEqual(1);
      expect(pages, sheet).toBeLessThanOrEqual(2);
    }
  });

  it('names both telephones on the first page, and again beside the reasons to call', () => {
    for (const sheet of filesIn('private', '.pdf')) {
      const { text } = overFile(readFileSync(sheet), 'pdftotext', '-l', '1', 'FILE', '-');
      const { text: all } = overFile(readFileSync(sheet), 'pdftotext', 'FILE', '-');
      for (const number of [/555\s0100/g, /555\s0199/g]) {
        expect(text.match(number), sheet).toHaveLength(1);
        expect(all.match(number), sheet).toHaveLength(2);
      }
    }
  });

  it('parts no date from its month and ends no sentence with two stops', () => {
    for (const sheet of filesIn('private', '.pdf')) {
      const { text } = overFile(readFileSync(sheet), 'pdftotext', '-layout', 'FILE', '-');
      expect(text, sheet).not.toMatch(
        /\b(January|February|March|April|May|June|July|August|September|October|November|December)\s*$/m,
      );
      expect(text, sheet).not.toMatch(/m\.\./);
    }
  });
});

const chromiumIsHere = existsSync(CHROMIUM);
if (!chromiumIsHere) console.log(`skipped: there is no ${CHROMIUM}`);

describe.runIf(chromiumIsHere)('every page in a browser, 320 px wide', () => {
  let browser: Browser;
  let page: Page;
  const complaints: string[] = [];
  const requests: string[] = [];

  beforeAll(async () => {
    browser = await chromium.launch({
      executablePath: CHROMIUM,
      args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
    });
    page = await browser.newPage({ viewport: { width: 320, height: 700 } });
    page.on('console', (message) => complaints.push(message.text()));
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('requestfailed', (request) => complaints.push(`not loaded: ${request.url()}`));
    page.on('request', (request) => requests.push(request.url()));
  }, 30_000);

  afterAll(() => browser.close());

  it('fits without sideways scrolling, loads its faces, and complains of nothing', async () => {
    const pages = [...filesIn('private', '.html'), ...filesIn('public', '.html')];
    expect(pages.length).toBeGreaterThan(15);
    for (const file of pages) {
      await page.goto(pathToFileURL(file).href);
      const { wide, faces } = await page.evaluate<{ wide: number; faces: number }>(
        `document.fonts.ready.then((fonts) => ({
          wide: document.documentElement.scrollWidth,
          faces: [...fonts].filter(({ status }) => status === 'loaded').length,
        }))`,
      );
      expect(wide, file).toBeLessThanOrEqual(320);
      expect(faces, file).toBeGreaterThanOrEqual(2);
    }
    expect(complaints).toEqual([]);
  });

  it('asks for no file outside the output folder', () => {
    const home = pathToFileURL(`${out}/`).href;
    expect(requests.length).toBeGreaterThan(50);
    expect(requests.filter((url) => !url.startsWith(home))).toEqual([]);
  });
});
