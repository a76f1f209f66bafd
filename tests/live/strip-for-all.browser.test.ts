import { cpSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BrowserContextOptions } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { toldBeats } from '../../src/signal/told-beats.js';
import { spanishSite } from '../demo-site.js';
import { violationsOn } from '../publish/axe.js';
import { chromiumIsHere } from '../tools/chromium.js';
import {
  button,
  DESK,
  EARLY,
  measuredWords,
  NARROW,
  open,
  PHONE,
  picture,
  settled,
  shownBy,
  site,
  stripOf,
  temporaryFolder,
  told,
  UNNAMED,
  useStripPages,
} from './strip-page.js';

useStripPages();

const spanish = chromiumIsHere ? await spanishSite() : '';

describe.runIf(chromiumIsHere)('motion', () => {
  /** How many different places the paper passes on the way to the last beat. */
  const places = async (reducedMotion: 'reduce' | 'no-preference') => {
    const page = await open(EARLY, { ...DESK, reducedMotion });
    await page.locator('.strip-paper').focus();
    await settled(page);
    await page.evaluate(`(() => {
      const paper = document.querySelector('.strip-paper');
      globalThis.places = new Set();
      const look = () => { places.add(paper.getAttribute('aria-label')); requestAnimationFrame(look); };
      look();
    })()`);
    await page.keyboard.press('End');
    await expect.poll(async () => (await shownBy(page))[1]).toBe(60);
    await page.waitForTimeout(300);
    const seen = await page.evaluate<number>('places.size');
    await page.close();
    return seen;
  };

  it('is left out for a reader who wants none', async () => {
    expect(await places('reduce')).toBe(2);
    expect(await places('no-preference')).toBeGreaterThan(2);
  });
});

describe.runIf(chromiumIsHere)('without scripts and on paper', () => {
  it('leaves the printed picture and the table of beats', async () => {
    const page = await open(EARLY, { ...DESK, javaScriptEnabled: false });
    const figure = page.locator('figure[data-figure="strip-1"]');
    await figure.scrollIntoViewIfNeeded();
    expect(await figure.locator('.figure-frame > svg').isVisible()).toBe(true);
    expect(await page.locator('canvas').count()).toBe(0);
    const svg = await figure.locator('svg').boundingBox();
    const frame = await figure.locator('.figure-frame').boundingBox();
    expect(frame?.height).toBeCloseTo(svg?.height as number, 0);
    await figure.locator('summary').click();
    const beats = toldBeats(stripOf(EARLY).analysis);
    const rows = await figure.locator('tbody tr').allInnerTexts();
    expect(rows).toHaveLength(beats.length);
    beats.forEach((beat, index) => {
      const row = rows[index] as string;
      expect(row).toContain(beat.time.toFixed(3));
      if (typeof beat.rr === 'number') expect(row).toContain(beat.rr.toFixed(3));
      if (beat.qt !== null) expect(row).toContain(beat.qt.toFixed(3));
    });
    await page.close();
  });

  it('prints the picture and its caption, not the canvas', async () => {
    const page = await open();
    await page.emulateMedia({ media: 'print' });
    const figure = page.locator('figure[data-figure="strip-1"]');
    expect(await figure.locator('.figure-frame > svg').isVisible()).toBe(true);
    expect(await figure.locator('canvas').first().isVisible()).toBe(false);
    expect(await figure.locator('.on-paper').textContent()).toMatch(/25\smm\/s and 10\smm\/mV/);
    expect(await figure.locator('.on-paper').isVisible()).toBe(true);
    expect(await figure.locator('.on-screen').isVisible()).toBe(false);
    await page.close();
  });
});

/** How high the figure is before its scripts have run, and after. */
async function heights(
  name: string,
  size: BrowserContextOptions,
  folder: string,
): Promise<readonly [still: number, live: number]> {
  const still = temporaryFolder();
  cpSync(folder, still, { recursive: true });
  writeFileSync(join(still, 'assets', 'case.js'), '');
  const heightIn = async (where: string) => {
    const page = await open(name, size, where);
    await settled(page);
    const box = await page.locator('figure[data-figure="strip-1"]').boundingBox();
    await page.close();
    return box?.height as number;
  };
  return [await heightIn(still), await heightIn(folder)];
}

describe.runIf(chromiumIsHere)('room', () => {
  it.each([
    ['desk', DESK],
    ['phone', PHONE],
    ['narrow', NARROW],
  ] as const)(
    'is kept before the scripts have run, so that nothing moves (%s)',
    async (_, size) => {
      for (const name of [EARLY, UNNAMED]) {
        const [still, live] = await heights(name, size, site);
        expect(live, name).toBe(still);
      }
    },
  );

  it('fits 320 px, with everything to press large enough for a finger', async () => {
    const page = await open(EARLY, NARROW);
    await button(page, 'Measure this RR').click();
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(320);
    const sizes = await page.evaluate<{ what: string; width: number; height: number }[]>(
      `[...document.querySelectorAll('.strip-live :is(button, select, [role=slider])')].map((one) => {
        const { width, height } = one.getBoundingClientRect();
        return { what: one.textContent, width, height };
      })`,
    );
    expect(sizes.length).toBeGreaterThan(12);
    for (const { what, width, height } of sizes) {
      expect(width, what).toBeGreaterThanOrEqual(44);
      expect(height, what).toBeGreaterThanOrEqual(44);
    }
    await page.close();
  });
});

describe.runIf(chromiumIsHere)('the keyboard alone', () => {
  it('reaches every control in order, shows where it is, and works it', async () => {
    const page = await open();
    await button(page, 'Measure').focus();
    await page.keyboard.press('Space');
    const wanted = await page.evaluate<number>(
      `[...document.querySelectorAll('.strip-live :is(button, select, summary, [tabindex="0"])')].filter((one) => one.checkVisibility() && !one.disabled).map((one, index) => (one.dataset.at = index)).length`,
    );
    await button(page, 'Beat before').focus();
    const reached: string[] = [];
    for (let step = 0; step < wanted; step++) {
      const { at, outline } = await page.evaluate<{ at: string; outline: string }>(
        `(() => { const one = document.activeElement; const { outlineStyle, outlineWidth } = getComputedStyle(one); return { at: one.dataset.at, outline: outlineStyle + ' ' + outlineWidth }; })()`,
      );
      reached.push(at);
      if (step > 0) expect(outline, at).toBe('solid 3px');
      await page.keyboard.press('Tab');
    }
    expect(reached).toEqual(Array.from({ length: wanted }, (_, index) => String(index)));
    await button(page, 'T').focus();
    await page.keyboard.press('Space');
    expect(await button(page, 'T').getAttribute('aria-pressed')).toBe('false');
    await button(page, '50 mm/s').focus();
    await page.keyboard.press('Enter');
    expect(await button(page, '50 mm/s').getAttribute('aria-pressed')).toBe('true');
    await page.getByText('Keys, touch and mouse').focus();
    await page.keyboard.press('Enter');
    expect(await page.locator('.strip-help li').first().isVisible()).toBe(true);
    await page.close();
  });

  it('turns the paper by Page Down and Page Up, and moves it up and down where it is tall', async () => {
    const page = await open();
    await page.locator('.strip-paper').focus();
    const [from, to] = await shownBy(page);
    await page.keyboard.press('PageDown');
    await expect
      .poll(async () => (await shownBy(page))[0])
      .toBeCloseTo(from + 0.9 * (to - from), 0);
    await page.keyboard.press('PageUp');
    await expect.poll(() => shownBy(page)).toEqual([from, to]);
    for (let step = 0; step < 8; step++) await page.keyboard.press('+');
    const top = await picture(page);
    await page.keyboard.press('ArrowDown');
    const below = await picture(page);
    expect(below).not.toBe(top);
    await page.keyboard.press('ArrowUp');
    expect(await picture(page)).toBe(top);
    await page.close();
  });

  it('leaves the paper by Tab, and keys of the browser to the browser', async () => {
    const page = await open();
    await page.locator('.strip-paper').focus();
    const before = await told(page);
    await page.keyboard.press('Alt+ArrowDown');
    await page.keyboard.press('q');
    expect(await told(page)).toBe(before);
    await page.keyboard.press('Tab');
    expect(await page.evaluate('document.activeElement.className')).not.toBe('strip-paper');
    await page.close();
  });
});

describe.runIf(chromiumIsHere)('for those who do not see it', () => {
  it.each([
    [320, 'light'],
    [1100, 'dark'],
  ] as const)(
    'has nothing that axe-core finds wrong in use (%i px, %s)',
    async (width, colorScheme) => {
      const page = await open(EARLY, { viewport: { width, height: 800 }, colorScheme });
      await button(page, 'Next beat').click();
      await button(page, 'Measure this RR').click();
      await page.getByText('Keys, touch and mouse').click();
      await page.locator('details.rows summary').click();
      expect(await violationsOn(page)).toEqual([]);
      await page.close();
    },
  );

  it.each(['dark', 'light'] as const)('can be forced into the %s scheme', async (scheme) => {
    const page = await open(EARLY, { ...DESK, colorScheme: scheme === 'dark' ? 'light' : 'dark' });
    const before = await picture(page);
    await page.evaluate(`document.documentElement.dataset.scheme = '${scheme}'`);
    await expect.poll(() => picture(page)).not.toBe(before);
    const other = await open(EARLY, { ...DESK, colorScheme: scheme });
    expect(await picture(page)).toBe(await picture(other));
    await page.close();
    await other.close();
  });
});

describe.runIf(chromiumIsHere)('in Spanish', () => {
  const folder = join(spanish, 'public');

  it.each([
    ['desk', DESK],
    ['phone', PHONE],
    ['narrow', NARROW],
  ] as const)('keeps the same room before and after the scripts have run (%s)', async (_, size) => {
    const [still, live] = await heights(EARLY, size, folder);
    expect(live).toBe(still);
  });

  it('tells beats, points and places in Spanish alone', async () => {
    const page = await open(EARLY, NARROW, folder);
    const beats = toldBeats(stripOf(EARLY).analysis);
    const rr = beats[1]?.rr as number;
    await button(page, 'Latido siguiente').click();
    await button(page, 'Latido siguiente').click();
    const words = await told(page);
    expect(words).toContain(`Latido 2 de ${beats.length}`);
    expect(words).toContain(`RR previo de ${rr.toFixed(3)} s`);
    await button(page, 'Medir este RR').click();
    expect(await measuredWords(page)).toContain(`${rr.toFixed(3)} s`);
    await page.getByText('Teclas, dedos y ratón').click();
    await page.locator('details.rows summary').click();
    const all = await page
      .locator('figure[data-figure="strip-1"] :is(.strip-live, .on-screen, details)')
      .allTextContents();
    expect(all.join(' ')).not.toMatch(/\b(beat|before|the|of|and|withheld|seen)\b/i);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(320);
    expect(await violationsOn(page)).toEqual([]);
    await page.close();
  });
});
