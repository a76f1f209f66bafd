import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoSite } from '../../demo-site.js';
import { chromiumIsHere, useBrowser } from '../../tools/chromium.js';
import { type Heard, listen, pagesOf, serve } from './in-chromium.js';

const tree = join(await demoSite(), 'public');
const pages = pagesOf(tree);

const browser = useBrowser();

/** Every address that a page leads to or is put together from, as a browser resolves it. */
const ADDRESSES = `[...document.querySelectorAll('[href], [src]')]
  .filter((one) => !one.matches('link[rel=canonical]'))
  .map((one) => new URL(one.getAttribute('href') ?? one.getAttribute('src'), document.baseURI).href)`;

/** Ids to which links of the page itself lead and that it does not have. */
const idsOf = (page: Page) =>
  page.evaluate<string[]>(`[...document.querySelectorAll('[id]')].map(({ id }) => id)`);

describe.runIf(chromiumIsHere).each(['from a folder', 'deep within a web server'])(
  '%s',
  (where) => {
    let home: string;
    let close: () => unknown = () => undefined;
    let heard: Heard;
    const linked = new Set<string>();
    const ids = new Map<string, readonly string[]>();

    beforeAll(async () => {
      if (where === 'from a folder') home = pathToFileURL(`${tree}/`).href;
      else ({ home, close } = await serve(tree, '/some/deep/path/'));
      const page = await browser.newPage();
      heard = await listen(page);
      for (const name of pages) {
        await page.goto(`${home}${name}`);
        for (const address of await page.evaluate<string[]>(ADDRESSES)) linked.add(address);
        ids.set(`${home}${name}`, await idsOf(page));
      }
      await page.close();
    }, 180_000);
    afterAll(() => close());

    it('opens every page without a complaint, and without a refusal of its strict policy', () => {
      expect(pages.length).toBeGreaterThan(20);
      expect(heard.complaints).toEqual([]);
    });

    it('asks for nothing outside its own place', () => {
      expect(heard.requests.length).toBeGreaterThan(3 * pages.length);
      expect(heard.requests.filter((url) => !url.startsWith(home))).toEqual([]);
    });

    it('leads to no page, file or place on a page that is not there', async () => {
      const own = [...linked].filter((address) => address.startsWith(home));
      expect(own.length).toBeGreaterThan(100);
      const page = await browser.newPage();
      const missing: string[] = [];
      for (const address of own) {
        const [file = '', anchor] = address.split('#');
        const isPage = ids.has(file);
        if (isPage && anchor && !ids.get(file)?.includes(decodeURIComponent(anchor))) {
          missing.push(address);
        }
        if (isPage) continue;
        const there = file.startsWith('file:')
          ? existsSync(new URL(file))
          : (await page.request.get(file)).ok();
        if (!there) missing.push(address);
      }
      await page.close();
      expect(missing).toEqual([]);
    });

    it('leads away from its own place only to sources that a text names', () => {
      const away = [...linked].filter((address) => !address.startsWith(home));
      expect(away.filter((address) => !/^(https?|mailto):/.test(address))).toEqual([]);
    });
  },
);

describe.runIf(chromiumIsHere)('the policy of a page', () => {
  it('lets nothing run, load or be sent but scripts, styles, faces and pictures of its own', async () => {
    const page = await browser.newPage();
    for (const name of pages) {
      await page.goto(pathToFileURL(join(tree, name)).href);
      expect(
        await page.getAttribute('meta[http-equiv="Content-Security-Policy"]', 'content'),
        name,
      ).toBe(
        "default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self'; script-src 'self'; base-uri 'none'; form-action 'none'",
      );
      // As it is served: what a script sets through the style object of an element is its own.
      const html = readFileSync(join(tree, name), 'utf8').replace(/<svg[\s\S]*?<\/svg>/g, '');
      const inline = html.match(
        /<(?:style|base|iframe|object|embed)\b|<[^>]*\s(?:style|on\w+)=|<script(?![^>]* (?:src="|type="application\/(?:ld\+)?json"))[^>]*>/g,
      );
      expect(inline, name).toBeNull();
    }
    await page.close();
  }, 120_000);

  it('refuses a script that was put into a page, and that is heard here', async () => {
    const page = await browser.newPage();
    const heard = await listen(page);
    await page.goto(pathToFileURL(join(tree, 'index.html')).href);
    await page.evaluate(
      `{ const script = document.createElement('script'); script.textContent = 'globalThis.ran = true'; document.body.append(script); }`,
    );
    await expect.poll(() => heard.complaints.join()).toContain('refused: script-src-elem inline');
    expect(await page.evaluate('globalThis.ran')).toBeUndefined();
    await page.close();
  });
});
