import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { demoSite, spanishSite } from '../../demo-site.js';
import { awaken } from '../../live/page.js';
import { chromiumIsHere, useBrowser } from '../../tools/chromium.js';
import { violationsOn } from '../axe.js';
import { listen, pagesOf } from './in-chromium.js';

const demo = await demoSite();
const spanish = join(await spanishSite(), 'public');

const browser = useBrowser();

const address = (tree: string, name: string) => pathToFileURL(join(tree, name)).href;
const colourOf = (page: Page, selector: string, of = 'backgroundColor') =>
  page.evaluate<string>(`getComputedStyle(document.querySelector('${selector}')).${of}`);

const WHITE = 'rgb(255, 255, 255)';
const DARK = 'rgb(28, 26, 24)';
const LAMPLIT = 'rgb(217, 209, 197)';

describe.runIf(chromiumIsHere)('light and dark', () => {
  it('follow the device until the reader chooses, and then the reader, on every page', async () => {
    const page = await browser.newPage({ colorScheme: 'dark' });
    const heard = await listen(page);
    const pressed = () => page.getAttribute('button.scheme', 'aria-pressed');
    await page.goto(address(demo, 'public/index.html'));
    expect([await colourOf(page, 'body'), await pressed()]).toEqual([DARK, 'true']);
    await page.emulateMedia({ colorScheme: 'light' });
    await expect.poll(pressed).toBe('false');
    expect(await colourOf(page, 'body')).toBe(WHITE);
    await page.getByRole('button', { name: 'Dark' }).press('Enter');
    expect([await colourOf(page, 'body'), await pressed()]).toEqual([DARK, 'true']);
    await page.goto(address(demo, 'public/when-a-tie-slips/teaching.html'));
    expect([await colourOf(page, 'body'), await pressed()]).toEqual([DARK, 'true']);
    await page.emulateMedia({ colorScheme: 'dark' });
    await page.click('button.scheme');
    expect(await colourOf(page, 'body')).toBe(WHITE);
    expect(heard.complaints).toEqual([]);
    await page.close();
  });

  it('leave what is drawn on paper, dim by lamplight, with black ink', async () => {
    const page = await browser.newPage({ colorScheme: 'dark' });
    await page.goto(address(demo, 'public/when-a-tie-slips/teaching.html'));
    expect(await colourOf(page, 'body')).toBe(DARK);
    expect(await colourOf(page, '.figure-frame')).toBe(LAMPLIT);
    expect(await colourOf(page, '.figure-frame svg')).toBe(LAMPLIT);
    expect(await colourOf(page, '.figure-frame', 'color')).toBe('rgb(27, 27, 27)');
    await page.close();
  });

  it('leave an owner’s sheet light, without scripts, and every print black on white', async () => {
    const page = await browser.newPage({ colorScheme: 'dark' });
    await page.goto(address(demo, 'private/juniper/discharge.html'));
    expect(await colourOf(page, 'body')).toBe(WHITE);
    expect(await page.locator('script').count()).toBe(0);
    await page.goto(address(demo, 'public/index.html'));
    await page.emulateMedia({ media: 'print' });
    expect(await colourOf(page, 'body')).toBe(WHITE);
    expect(await colourOf(page, 'h1', 'color')).toBe('rgb(27, 27, 27)');
    await page.close();
  });

  it('are taken from the device where scripts do not run', async () => {
    const page = await browser.newPage({ colorScheme: 'dark', javaScriptEnabled: false });
    await page.goto(address(demo, 'public/index.html'));
    const shot = await page.screenshot({ clip: { x: 0, y: 0, width: 1, height: 1 } });
    expect(shot.length).toBeGreaterThan(0);
    expect(await page.locator('button.scheme').isVisible()).toBe(false);
    await page.close();
  });
});

describe('a site in Spanish', () => {
  it('is built without a feed, and without an English word of the frame', () => {
    for (const file of ['feed.xml', 'sitemap.xml', 'robots.txt']) {
      expect(existsSync(join(demo, 'public', file)), file).toBe(true);
      expect(existsSync(join(spanish, file)), file).toBe(false);
    }
    for (const name of pagesOf(spanish)) {
      const html = readFileSync(join(spanish, name), 'utf8');
      expect(html, name).toMatch(
        /guide|privacy|library\/en/.test(name)
          ? '<html lang="en" class="public">'
          : '<html lang="es" class="public">',
      );
      if (!/guide|privacy|library\/en/.test(name)) {
        expect(html, name).toContain('href="#content">Ir al contenido</a>');
        expect(html, name).not.toMatch(/>(Search|Cases|By species|Glossary|Skip to the content)</);
      }
    }
  });

  it('has its lists in Spanish, and leads from a question to its place', () => {
    const read = (name: string) => readFileSync(join(spanish, name), 'utf8');
    expect(read('species.html')).toContain('<h1>Casos por especie</h1>');
    expect(read('species.html')).toMatch(/>(Conejo|Perro|Gato)<\/h2>/);
    expect(read('rhythms.html')).toMatch(/>Ritmo sinusal|>Taquicardia sinusal/);
    const links = [...read('questions.html').matchAll(/href="([^"#]+)#([^"]+)"/g)];
    expect(links.length).toBeGreaterThan(5);
    for (const [, file = '', id = ''] of links.filter(([, file]) => file !== '')) {
      expect(read(file)).toContain(`id="${id}"`);
    }
  });

  it.runIf(chromiumIsHere)(
    'has nothing that axe-core finds wrong, by choice light and by choice dark',
    async () => {
      const page = await browser.newPage({
        viewport: { width: 375, height: 700 },
        colorScheme: 'light',
      });
      await page.goto(address(spanish, 'index.html'));
      let colour = WHITE;
      /** The reader chooses the other colours, and the device prefers what was not chosen. */
      const choose = async () => {
        await page.click('button.scheme');
        await page.emulateMedia({ colorScheme: colour === WHITE ? 'light' : 'dark' });
        colour = colour === WHITE ? DARK : WHITE;
      };
      await choose();
      for (const name of pagesOf(spanish)) {
        await page.goto(address(spanish, name));
        await awaken(page);
        // As it was chosen on the page before, and then the other way.
        for (const turn of [0, 1]) {
          if (turn === 1) await choose();
          await expect.poll(() => colourOf(page, 'body'), { message: name }).toBe(colour);
          expect(await violationsOn(page), `${name}, ${colour}`).toEqual([]);
        }
      }
      await page.close();
    },
    480_000,
  );
});
