import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { demoSite } from '../../demo-site.js';
import { chromiumIsHere, useBrowser } from '../../tools/chromium.js';
import { violationsOn } from '../axe.js';
import { type Heard, listen } from './in-chromium.js';

const tree = join(await demoSite(), 'public');
const address = (rest = '') => `${pathToFileURL(join(tree, 'search.html')).href}${rest}`;

const browser = useBrowser();

describe.runIf(chromiumIsHere)('the search, from a folder without a server', () => {
  let page: Page;
  let heard: Heard;
  const open = async (rest = '') => {
    page = await browser.newPage({ viewport: { width: 375, height: 800 } });
    heard = await listen(page);
    await page.goto(address(rest));
  };
  const close = async () => {
    expect(heard.complaints).toEqual([]);
    await page.close();
  };
  const count = () => page.textContent('[role=status]');

  it('answers the question in its address, marks the words and tells how many it found', async () => {
    await open('?q=potassium');
    await expect.poll(count).toMatch(/^\d+ passages on \d+ pages$/);
    const said = (await count()) ?? '';
    expect(said).toMatch(`${await page.locator('.passage').count()} passages`);
    expect(said).toMatch(`${await page.locator('.results > li').count()} pages`);
    const marks = await page.locator('mark').allTextContents();
    expect(new Set(marks.map((mark) => mark.toLowerCase()))).toEqual(new Set(['potassium']));
    // The case whose question it is comes first.
    expect(await page.locator('.results h3').first().textContent()).toBe(
      'Does a tall T wave mean high potassium?',
    );
    expect(heard.complaints).toEqual([]);
    // The tool itself asks for the style anew, which the page refuses.
    expect(await violationsOn(page)).toEqual([]);
    await page.close();
  });

  it('fetches its index when it is first needed, and only that of the language', async () => {
    await open();
    const fetched = () => heard.requests.filter((url) => /search-\w+\.js$/.test(url));
    expect(fetched()).toEqual([]);
    await page.focus('#q');
    await expect.poll(fetched).toHaveLength(1);
    expect(fetched()[0]).toMatch(/assets\/search-en\.js$/);
    await close();
  });

  it('is used by keyboard alone, from the question to the place of the answer', async () => {
    await open();
    while ((await page.evaluate('document.activeElement.id')) !== 'q')
      await page.keyboard.press('Tab');
    await page.keyboard.type('lengthen incision');
    await page.keyboard.press('Enter');
    await expect.poll(count).toMatch(/passage/);
    expect(page.url()).toContain('q=lengthen+incision');
    const wanted = 'Why lengthen the incision in the middle of trouble?';
    while ((await page.evaluate('document.activeElement.textContent')) !== wanted) {
      await page.keyboard.press('Tab');
    }
    await page.keyboard.press('Enter');
    await page.waitForURL(/when-a-tie-slips\/teaching\.html#why-lengthen/);
    const top = await page.evaluate<number>(
      `document.querySelector(':target').getBoundingClientRect().top`,
    );
    expect(top).toBeLessThan(800);
    await page.goBack();
    await expect.poll(count).toMatch(/passage/);
    expect(await page.inputValue('#q')).toBe('lengthen incision');
    await close();
  });

  it('finds Spanish words without their accents, under the language of the answer', async () => {
    await open('?q=lugar&in=es');
    await expect.poll(count).toMatch(/passage/);
    await page.fill('#q', 'publico');
    await expect.poll(() => page.locator('mark').allTextContents()).toContain('público');
    expect(await page.getAttribute('.results', 'lang')).toBe('es');
    await close();
  });

  it('says that nothing was found, and what to try', async () => {
    await open('?q=xyzzyx');
    await expect.poll(count).toMatch(/^Nothing was found for “xyzzyx”\. Try fewer/);
    expect(await page.locator('.results').count()).toBe(0);
    await page.fill('#q', '');
    await expect.poll(count).toBe('');
    await close();
  });

  it('takes markup in a question for text', async () => {
    await open(`?q=${encodeURIComponent('<img src=x onerror=alert(1)>')}`);
    await expect.poll(count).toMatch(/“<img src=x|passage/);
    expect(await page.locator('main img').count()).toBe(0);
    await close();
  });

  it('offers the lists where scripts do not run', async () => {
    page = await browser.newPage({ javaScriptEnabled: false });
    await page.goto(address());
    expect(await page.locator('form').isVisible()).toBe(false);
    expect(await page.getByText('The search needs scripts').isVisible()).toBe(true);
    expect(await page.locator('.without-scripts a[href="questions.html"]').isVisible()).toBe(true);
    expect(await page.locator('button.scheme').isVisible()).toBe(false);
    await page.close();
  });
});
