import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';

const CHROMIUM = '/usr/bin/chromium';
export const chromiumIsHere = existsSync(CHROMIUM);
if (!chromiumIsHere) console.log(`skipped: there is no ${CHROMIUM}`);

export const launch = (): Promise<Browser> =>
  chromium.launch({
    executablePath: CHROMIUM,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });

/** What a test asks of its browser. */
export type Pages = Pick<Browser, 'newPage' | 'contexts'>;

/** A browser for the tests of one file, from before the first until after the last. */
export function useBrowser(): Pages {
  let browser: Browser | undefined;
  beforeAll(async () => {
    if (chromiumIsHere) browser = await launch();
  }, 60_000);
  afterAll(() => browser?.close());
  const running = (): Browser => {
    if (!browser) throw new Error('no test of this file has begun, or there is no Chromium');
    return browser;
  };
  return {
    newPage: (options) => running().newPage(options),
    contexts: () => running().contexts(),
  };
}
