import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  type Browser,
  type BrowserContextOptions,
  chromium,
  type Locator,
  type Page,
} from 'playwright-core';

const CHROMIUM = '/usr/bin/chromium';

export const chromiumIsHere = existsSync(CHROMIUM);

export const launched = (): Promise<Browser> =>
  chromium.launch({
    executablePath: CHROMIUM,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });

/** The words of a part of a page, with plain spaces. */
export const wordsOf = async (part: Locator): Promise<string> =>
  ((await part.textContent()) ?? '').replaceAll('\u00a0', ' ');

/** A teaching page opened from its folder, with all that the browser complained of. */
export interface Opened {
  readonly page: Page;
  readonly complaints: string[];
}

export async function opened(
  browser: Browser,
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
  return { page, complaints };
}
