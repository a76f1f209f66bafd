import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { build } from '../../src/publish/build.js';
import { disk } from '../../src/publish/disk.js';
import { demoSite } from '../demo-site.js';
import { awaken } from '../live/page.js';
import { chromiumIsHere, useBrowser } from '../tools/chromium.js';
import { violationsOn } from './axe.js';
import { TestClinic } from './clinic.js';
import { hasProgram, overFile } from './programs.js';

const folder = mkdtempSync(join(tmpdir(), 'thrice-pages-'));
const out = await demoSite();

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const filesIn = (under: string, ending: string) =>
  readdirSync(join(out, under), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
    .map((entry) => join(entry.parentPath, entry.name));

describe.runIf(hasProgram('pdfinfo'))('an owner’s sheet on paper', () => {
  it('has two pages at most, in every demo case', () => {
    const sheets = filesIn('private', 'discharge.pdf');
    expect(sheets.length).toBeGreaterThan(5);
    for (const sheet of sheets) {
      const { text } = overFile(readFileSync(sheet), 'pdfinfo', 'FILE');
      const pages = Number(/^Pages:\s+(\d+)$/m.exec(text)?.[1]);
      expect(pages, sheet).toBeGreaterThanOrEqual(1);
      expect(pages, sheet).toBeLessThanOrEqual(2);
    }
  });

  it('names both telephones on the first page, and again beside the reasons to call', () => {
    for (const sheet of filesIn('private', 'discharge.pdf')) {
      const { text } = overFile(readFileSync(sheet), 'pdftotext', '-l', '1', 'FILE', '-');
      const { text: all } = overFile(readFileSync(sheet), 'pdftotext', 'FILE', '-');
      for (const number of [/555\s0100/g, /555\s0199/g]) {
        expect(text.match(number)?.length ?? 0, sheet).toBeGreaterThanOrEqual(1);
        expect(all.match(number), sheet).toHaveLength(2);
      }
    }
  });

  it('parts no date from its month and ends no sentence with two stops', () => {
    for (const sheet of filesIn('private', 'discharge.pdf')) {
      const { text } = overFile(readFileSync(sheet), 'pdftotext', '-layout', 'FILE', '-');
      expect(text, sheet).not.toMatch(
        /\b(January|February|March|April|May|June|July|August|September|October|November|December)\s*$/m,
      );
      expect(text, sheet).not.toMatch(/m\.\./);
    }
  });
});

const browser = useBrowser();

/** Every page; of the library those of each template, and the longest, as the rest are made alike. */
const allPages = () =>
  [...filesIn('private', '.html'), ...filesIn('public', '.html')].filter(
    (file) =>
      !/\/library\//.test(file) ||
      /\/(index|glossary|rhythms|p-qrs-t|when-the-monitor-fails)\.html$/.test(file),
  );

/** What a visit to a page found. */
interface Visited {
  /** Width of what there is to scroll, CSS pixels, and how many faces were loaded. */
  readonly wide: number;
  readonly faces: number;
  readonly violations: readonly string[];
  /** Stops of the Tab key in the order of the page, and those that were reached, with how that showed. */
  readonly stops: readonly string[];
  readonly reached: readonly {
    readonly at: string;
    readonly outline: string;
    readonly seen: boolean;
  }[];
  /** What is left on paper of what only a screen can do, and how many links are not in black. */
  readonly shown: readonly string[];
  readonly coloured: number;
}

describe.runIf(chromiumIsHere)('every page in a browser, 320 px wide', () => {
  const complaints: string[] = [];
  const requests: string[] = [];
  const visited = new Map<string, Visited>();
  /** The search for barriers asks for styles anew, which a page refuses: that is no fault of the page. */
  let isHeard = true;

  /** One visit answers everything that is asked of a page. */
  async function visit(page: Page, file: string): Promise<Visited> {
    isHeard = true;
    await page.goto(pathToFileURL(file).href);
    await awaken(page);
    const fits = await page.evaluate<{ wide: number; faces: number }>(
      `document.fonts.ready.then((fonts) => ({
        wide: document.documentElement.scrollWidth,
        faces: [...fonts].filter(({ status }) => status === 'loaded').length,
      }))`,
    );
    isHeard = false;
    const violations = await violationsOn(page);
    const stops = await page.evaluate<string[]>(STOPS);
    const reached: Visited['reached'][number][] = [];
    for (const _ of stops) {
      await page.keyboard.press('Tab');
      reached.push(await page.evaluate(FOCUS));
    }
    await page.emulateMedia({ media: 'print' });
    const shown = await page.evaluate<string[]>(
      `[...document.querySelectorAll('nav, .skip, .as-pdf')].filter((one) => getComputedStyle(one).display !== 'none').map((one) => one.className)`,
    );
    const coloured = await page.evaluate<number>(
      `[...document.querySelectorAll('main a')].filter((one) => getComputedStyle(one).color !== getComputedStyle(one.parentElement).color).length`,
    );
    await page.emulateMedia({ media: 'screen' });
    return { ...fits, violations, stops, reached, shown, coloured };
  }

  beforeAll(async () => {
    const page = await browser.newPage({
      viewport: { width: 320, height: 700 },
      colorScheme: 'light',
    });
    const complain = (words: string) => {
      if (isHeard) complaints.push(words);
    };
    page.on('console', (message) => complain(message.text()));
    page.on('pageerror', (error) => complain(error.message));
    page.on('requestfailed', (request) => {
      // What is not needed any more when the next page is opened is no fault.
      if (request.failure()?.errorText === 'net::ERR_ABORTED') return;
      complain(`not loaded: ${request.url()}`);
    });
    page.on('request', (request) => requests.push(request.url()));
    for (const file of allPages()) visited.set(file, await visit(page, file));
    await page.close();
  }, 240_000);

  it('fits without sideways scrolling, loads its faces, and complains of nothing', () => {
    expect(visited.size).toBeGreaterThan(15);
    for (const [file, { wide, faces }] of visited) {
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

  it('has nothing that axe-core finds wrong, where light colours are preferred', () => {
    for (const [file, { violations }] of visited) expect(violations, file).toEqual([]);
  });

  it('leads the keyboard to everything in order, and shows where it is', () => {
    for (const [file, { stops, reached }] of visited) {
      expect(stops.length, file).toBeGreaterThan(0);
      expect(reached, file).toEqual(stops.map((at) => ({ at, outline: 'solid 3px', seen: true })));
    }
  });

  it('leaves on paper what paper can do, in black', () => {
    for (const [file, { shown, coloured }] of visited) {
      expect(shown, file).toEqual([]);
      expect(coloured, file).toBe(0);
    }
  });
});

describe.runIf(chromiumIsHere)('every page, for those who do not see it or have no mouse', () => {
  it('has nothing that axe-core finds wrong, 1100 px wide, where dark colours are preferred', async () => {
    const page = await browser.newPage({
      viewport: { width: 1100, height: 700 },
      colorScheme: 'dark',
    });
    for (const file of allPages()) {
      await page.goto(pathToFileURL(file).href);
      await awaken(page);
      expect(await violationsOn(page), file).toEqual([]);
    }
    await page.close();
  }, 120_000);

  it('is not passed by axe-core where something is wrong', async () => {
    const page = await browser.newPage();
    await page.setContent(
      '<html lang="en"><title>x</title><main><h1>x</h1><img src="x.png"><p style="color:#999">pale</p></main>',
    );
    const found = (await violationsOn(page)).join();
    expect(found).toContain('image-alt');
    expect(found).toContain('color-contrast');
    await page.close();
  });

  it('lets the keyboard skip to the content', async () => {
    const page = await browser.newPage({ viewport: { width: 320, height: 700 } });
    for (const file of allPages()) {
      await page.goto(pathToFileURL(file).href);
      await page.keyboard.press('Tab');
      expect(await page.evaluate('document.activeElement.className'), file).toBe('skip');
      await page.keyboard.press('Enter');
      expect(await page.evaluate('document.activeElement.localName'), file).toBe('main');
    }
    await page.close();
  });

  it('keeps a table a table where it is laid out in one column', async () => {
    const page = await browser.newPage({ viewport: { width: 320, height: 700 } });
    await page.goto(pathToFileURL(join(out, 'private', 'juniper', 'discharge.html')).href);
    const medicines = page.getByRole('table').first();
    expect(await medicines.getByRole('columnheader').count()).toBe(2);
    expect(await medicines.getByRole('row').count()).toBeGreaterThan(1);
    expect(await medicines.getByRole('cell').count()).toBeGreaterThan(1);
    await page.close();
  });
});

/** Numbers everything that the Tab key stops at; of a group of choices, the first. */
const STOPS = `[...document.querySelectorAll('a[href], [tabindex="0"], input, button, select, summary')]
  .filter((one) => one.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true }))
  .filter((one) => !one.disabled)
  .filter((one) => one.type !== 'radio' || one === one.form.elements[one.name][0])
  .map((one, i) => (one.dataset.at = String(i)))`;

/** Which element has the focus, how that shows, and whether it is in view. */
const FOCUS = `(async () => {
  const one = document.activeElement;
  const isSeen = () => {
    const { top, bottom, left, right, width } = one.getBoundingClientRect();
    return width > 1 && bottom > 0 && top < innerHeight && right > 0 && left < innerWidth;
  };
  // A frame below the window is laid out by the frames that show it, and what follows moves down: a reader looks before the next Tab.
  const shows = () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  if (one.matches('.table-frame, .figure-frame')) await shows();
  for (let turn = 0; turn < 30 && !isSeen(); turn++) await shows();
  const { outlineStyle, outlineWidth } = getComputedStyle(one);
  return { at: one.dataset.at, outline: outlineStyle + ' ' + outlineWidth, seen: isSeen() };
})()`;

describe.runIf(chromiumIsHere)('an owner’s page in large type', () => {
  const clinic = new TestClinic('pumpernickel');
  beforeAll(async () => {
    clinic.edit('clinic.yaml', 'languages:', 'large type: yes\nlanguages:');
    const built = await build(
      { cases: clinic.folder, out: clinic.out, strict: true },
      disk(() => undefined),
    );
    expect(built).toMatchObject({ ok: true });
  }, 60_000);
  afterAll(() => clinic.remove());

  it.each([
    ['screen', 320],
    ['screen', 1100],
    ['print', 700],
  ] as const)(
    'has no letter below 18 points (24 CSS pixels) on %s, and fits %i px',
    async (media, width) => {
      const page = await browser.newPage({ viewport: { width, height: 700 } });
      await page.emulateMedia({ media });
      await page.goto(
        pathToFileURL(join(clinic.out, 'private', 'pumpernickel', 'discharge.html')).href,
      );
      const small = await page.evaluate<string[]>(SMALL_TEXT);
      expect(small).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(
        width,
      );
      if (media === 'screen') expect(await violationsOn(page)).toEqual([]);
      await page.close();
    },
  );

  it('has smaller letters in usual type, so that the measure tells them apart', async () => {
    const page = await browser.newPage();
    await page.goto(pathToFileURL(join(out, 'private', 'pumpernickel', 'discharge.html')).href);
    expect(await page.evaluate<string[]>(SMALL_TEXT)).not.toEqual([]);
    await page.close();
  });
});

/** Words that are printed in letters of less than 24 CSS pixels. */
const SMALL_TEXT = `(() => {
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const small = [];
  while (walk.nextNode()) {
    const { parentElement: one, data } = walk.currentNode;
    if (data.trim() === '' || one.closest('svg, .unseen, .skip') || one.offsetParent === null) continue;
    if (parseFloat(getComputedStyle(one).fontSize) < 23.99) small.push(data.trim());
  }
  return small;
})()`;
