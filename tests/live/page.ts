import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { BrowserContextOptions, Locator, Page } from 'playwright-core';
import type { Pages } from '../tools/chromium.js';

/** The words of a part of a page, with plain spaces. */
export const wordsOf = async (part: Locator): Promise<string> =>
  ((await part.textContent()) ?? '').replaceAll('\u00a0', ' ');

/** A teaching page opened from its folder, with all that the browser complained of. */
export interface Opened {
  readonly page: Page;
  readonly complaints: string[];
}

export async function opened(
  browser: Pages,
  out: string,
  address: string,
  options: BrowserContextOptions = {},
): Promise<Opened> {
  const page = await browser.newPage({ viewport: { width: 1100, height: 800 }, ...options });
  const complaints: string[] = [];
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('requestfailed', (request) => complaints.push(`not loaded: ${request.url()}`));
  await page.goto(pathToFileURL(join(out, 'public', address, 'teaching.html')).href);
  await page.evaluate('document.fonts.ready.then(() => undefined)');
  await awaken(page);
  return { page, complaints };
}

/** Two frames later, what was asked for has been painted. A browser on a machine under load may draw no frame for long: it is not waited for. */
export const TWO_FRAMES = `new Promise((done) => {
  requestAnimationFrame(() => requestAnimationFrame(done));
  setTimeout(done, 2000);
})`;

/** Brings every figure of a page to life, as a reader does who scrolls through it; returns to its top. */
export async function awaken(page: Page): Promise<void> {
  await page.evaluate(`(async () => {
    if (document.documentElement.dataset.scripts !== 'case') return;
    const frame = () => ${TWO_FRAMES};
    for (let y = 0; y < document.documentElement.scrollHeight; y += 0.4 * innerHeight) {
      scrollTo(0, y);
      await frame();
    }
    const figures = ['vitals"]', 'heart"]', 'strip-1"]'].map((end) => 'figure[data-figure="' + end);
    const asleep = () =>
      [...document.querySelectorAll(figures.join())].some((one) => !one.matches('.live, .heart-live, [data-live]'));
    for (let i = 0; i < 300 && asleep(); i++) await new Promise((done) => setTimeout(done, 10));
    scrollTo(0, 0);
    await frame();
  })()`);
}
