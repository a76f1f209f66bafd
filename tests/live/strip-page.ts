import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { runInNewContext } from 'node:vm';
import type { BrowserContextOptions, Page } from 'playwright-core';
import { afterAll } from 'vitest';
import { LIVE_CASE, type LiveCase } from '../../src/live/contract.js';
import { demoSite } from '../demo-site.js';
import { chromiumIsHere, type Pages, useBrowser } from '../tools/chromium.js';
import { awaken, TWO_FRAMES } from './page.js';

// The strip of a teaching page in a browser, for the tests that look at it.

/** Early beats, two leads, a start that is known. */
export const EARLY = 'seven-early-beats';
/** One lead, and no rhythm that could be named. */
export const UNNAMED = 'a-patient-that-must-keep-eating';

export const DESK = { viewport: { width: 1100, height: 1000 } };
export const PHONE = {
  viewport: { width: 375, height: 800 },
  deviceScaleFactor: 2,
  hasTouch: true,
};
export const NARROW = { viewport: { width: 320, height: 700 } };

let browser: Pages;
const temporary: string[] = [];
export const site = chromiumIsHere ? join(await demoSite(), 'public') : '';

/** Each file of tests has a browser of its own; test files may share this module. */
export function useStripPages(): void {
  browser = useBrowser();
  afterAll(() => {
    for (const folder of temporary.splice(0)) rmSync(folder, { recursive: true, force: true });
  });
}

/** A folder that is gone after the tests. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'thrice-strip-'));
  temporary.push(folder);
  return folder;
}

/** A page that fails its test where one of its scripts does. */
export async function newPage(options: BrowserContextOptions): Promise<Page> {
  const page = await browser.newPage(options);
  page.on('pageerror', (error) => {
    throw error;
  });
  return page;
}

export async function open(
  name = EARLY,
  options: BrowserContextOptions = DESK,
  folder = site,
): Promise<Page> {
  const page = await newPage(options);
  await page.goto(pathToFileURL(join(folder, name, 'teaching.html')).href);
  await page.evaluate('document.fonts.ready');
  await awaken(page);
  return page;
}

export function dataOf(name: string, folder = site): LiveCase {
  const globals: { [LIVE_CASE]?: LiveCase } = {};
  runInNewContext(readFileSync(join(folder, name, 'teaching.data.js'), 'utf8'), {
    globalThis: globals,
  });
  return globals[LIVE_CASE] as LiveCase;
}

export const stripOf = (name: string) => {
  const [strip] = dataOf(name).strips;
  if (!strip) throw new Error(`${name} has no strip`);
  return strip;
};

export const told = (page: Page) => page.locator('.strip-told').textContent() as Promise<string>;
export const measuredWords = (page: Page) =>
  page.locator('.strip-measured').textContent() as Promise<string>;
export const button = (page: Page, name: string) =>
  page.locator('.strip-live').getByRole('button', { name, exact: true });
export const millivoltIn = (words: string | null) =>
  Number(/([+−]?[\d.]+) mV/.exec(words ?? '')?.[1]?.replace('−', '-'));
/** The picture on the paper; the same picture gives the same text. */
export const picture = async (page: Page) => {
  await settled(page);
  return page.evaluate<string>(`document.querySelector('.strip-paper canvas').toDataURL()`);
};
/** What was asked for has been painted. */
export const settled = (page: Page) => page.evaluate(TWO_FRAMES);
/** First and last second that the paper shows. */
export const shownBy = async (page: Page) => {
  await settled(page);
  const name = (await page.locator('.strip-paper').getAttribute('aria-label')) as string;
  const [from, to] = [...name.matchAll(/\d+\.\d/g)].map(([number]) => Number(number));
  return [from as number, to as number] as const;
};
