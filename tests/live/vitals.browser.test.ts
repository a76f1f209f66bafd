import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { demoSite } from '../demo-site.js';
import { violationsOn } from '../publish/axe.js';
import { DEMO } from '../publish/clinic.js';
import { chromiumIsHere, useBrowser } from '../tools/chromium.js';
import { opened, wordsOf } from './page.js';

const out = await demoSite();
const TIE = 'when-a-tie-slips';
const VENTILATOR = 'ventilator-and-heartbeat';

/** What the record itself says, by minute: read apart from the program. */
const saffron: Record<string, string>[] = parse(
  readFileSync(join(DEMO, 'cases', 'saffron', 'vitals.csv')),
  { columns: true },
);
/** The anesthesia of that case began at 9:35. */
const rowAt = (minute: number) => {
  const clock = 9 * 60 + 35 + minute;
  const text = `${String(Math.floor(clock / 60)).padStart(2, '0')}:${String(clock % 60).padStart(2, '0')}`;
  const row = saffron.find((one) => one.clock === text);
  if (!row) throw new Error(`no reading at ${text}`);
  return row;
};

const browser = useBrowser();

const canvasOf = (page: Page) => page.locator('figure[data-figure="vitals"] canvas');
const sliderOf = (page: Page) => page.getByRole('slider', { name: 'Minute' });
const values = (page: Page): Promise<string> => wordsOf(page.locator('.vitals-values'));

/** Points at a minute of a chart of 85 minutes, whose axis leaves 34 px at the left (as the printed figure does). */
async function pointAt(canvas: Locator, share: number): Promise<void> {
  const box = await canvas.boundingBox();
  if (!box) throw new Error('the chart is not on the page');
  await canvas.hover({ position: { x: box.width * share, y: box.height / 2 } });
}

describe.runIf(chromiumIsHere)('the chart of the vital signs, alive', () => {
  it('tells under the pointer what the record holds for that minute', async () => {
    const { page, complaints } = await opened(browser, out, TIE);
    const seen = new Set<number>();
    for (let share = 0.1; share < 0.8; share += 0.09) {
      await pointAt(canvasOf(page), share);
      const told = await values(page);
      const minute = Number(/Minute (\d+)/.exec(told)?.[1]);
      seen.add(minute);
      const row = rowAt(minute);
      expect(told).toContain(`mean arterial pressure: ${row['mean [mmHg]']} mmHg`);
      expect(told).toContain(`heart rate: ${row['heart rate [/min]']} /min`);
      expect(told).toContain(`body temperature: ${row['temperature [°C]']} °C`);
    }
    expect(seen.size).toBeGreaterThan(5);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('is read step by step with the keyboard alone, and said aloud', async () => {
    const { page } = await opened(browser, out, TIE);
    await sliderOf(page).focus();
    for (let step = 0; step < 8; step++) await page.keyboard.press('ArrowRight');
    const aloud = page.locator('.vitals-reader [role="status"]');
    const row = rowAt(40);
    expect(await sliderOf(page).getAttribute('aria-valuetext')).toBe('Minute 40');
    for (const said of [await aloud.textContent(), await values(page)]) {
      expect(said).toContain('Minute 40');
      expect(said).toContain(`systolic arterial pressure: ${row['systolic [mmHg]']} mmHg`);
      expect(said).toContain('Event 5, minute 37: bleeding');
      // By hand from the record: 5 min at 14 and 5 min at 7 mmHg below 60.
      expect(said).toContain('10 min, 105 mmHg·min');
    }
    await page.keyboard.press('End');
    expect(await values(page)).toContain('Minute 85');
    await page.keyboard.press('ArrowLeft');
    expect(await values(page)).toContain('Minute 80');
    const frame = page.locator('figure[data-figure="vitals"] .figure-frame');
    await frame.focus();
    await page.keyboard.press('ArrowLeft');
    expect(await values(page)).toContain('Minute 75');
    await page.keyboard.press('Home');
    expect(await values(page)).toContain('Minute 0');
    await page.close();
  });

  it('says which readings are not the patient’s', async () => {
    const { page } = await opened(browser, out, VENTILATOR);
    await sliderOf(page).focus();
    await page.keyboard.press('ArrowRight');
    const told = await values(page);
    expect(told).toContain('body temperature: 21.3 °C, not the patient’s');
    // cases/juniper: the ventilator was turned on at minute 8.
    expect(told).toMatch(/respiratory rate: 8 \/min(?!,)/);
    await page.keyboard.press('ArrowRight');
    expect(await values(page)).toContain('respiratory rate: 8 /min, not the patient’s');
    expect(told).toMatch(/heart rate: 84 \/min(?!,)/);
    await page.close();
  });

  it('answers to a finger', async () => {
    const { page } = await opened(browser, out, TIE, {
      viewport: { width: 375, height: 700 },
      hasTouch: true,
      isMobile: true,
    });
    const box = await canvasOf(page).boundingBox();
    if (!box) throw new Error('the chart is not on the page');
    await canvasOf(page).tap({ position: { x: box.width / 2, y: box.height / 2 } });
    expect(await values(page)).toMatch(/Minute \d+/);
    expect(box.width).toBeLessThanOrEqual(375);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(375);
    await page.close();
  });

  it.each([
    ['desk', 1100],
    ['phone', 375],
  ])('moves nothing when it comes to life (%s)', async (_, width) => {
    const page = await browser.newPage({ viewport: { width, height: 800 } });
    // Faces that come late move text by themselves; this is about the script.
    await page.route('**/*.ttf', (route) => route.abort());
    await page.addInitScript(`
      globalThis.shifts = [];
      new PerformanceObserver((list) => shifts.push(...list.getEntries().map(({ value }) => value)))
        .observe({ type: 'layout-shift', buffered: true });
    `);
    await page.goto(`file://${join(out, 'public', TIE, 'teaching.html')}`);
    await page.locator('figure[data-figure="vitals"]').scrollIntoViewIfNeeded();
    await page.waitForTimeout(500);
    expect(await page.evaluate('shifts.reduce((sum, one) => sum + one, 0)')).toBe(0);
    await page.close();
  });

  it('takes the room of the printed figure, and gives it back on paper', async () => {
    const { page } = await opened(browser, out, TIE);
    const image = page.locator('figure[data-figure="vitals"] .figure-frame > svg');
    expect(await image.isVisible()).toBe(false);
    const box = await canvasOf(page).boundingBox();
    const millimetres = async (side: string) =>
      Number.parseFloat((await image.getAttribute(side)) as string);
    expect(box?.width).toBeCloseTo(((await millimetres('width')) / 25.4) * 96, 1);
    expect(box?.height).toBeCloseTo(((await millimetres('height')) / 25.4) * 96, 1);
    await page.emulateMedia({ media: 'print' });
    expect(await image.isVisible()).toBe(true);
    expect(await canvasOf(page).isVisible()).toBe(false);
    await page.close();
  });

  it('draws on the ground of the reader’s scheme, also when that changes', async () => {
    const { page } = await opened(browser, out, TIE, { colorScheme: 'light' });
    /** Share of what is drawn that is nearly white. */
    const pale = () =>
      page.evaluate<number>(`(() => {
        const canvas = document.querySelector('figure[data-figure="vitals"] canvas');
        const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
        let light = 0, drawn = 0;
        for (let i = 0; i < data.length; i += 4) {
          if (data[i + 3] < 250) continue;
          drawn += 1;
          if (data[i] > 235) light += 1;
        }
        return light / drawn;
      })()`);
    await canvasOf(page).scrollIntoViewIfNeeded();
    await expect.poll(pale).toBeGreaterThan(0);
    const byDay = await pale();
    await page.emulateMedia({ colorScheme: 'dark' });
    await expect.poll(pale).not.toBe(byDay);
    const byNight = await pale();
    await page.evaluate(`document.documentElement.dataset.scheme = 'light'`);
    await expect.poll(pale).toBe(byDay);
    await page.evaluate(`document.documentElement.dataset.scheme = 'dark'`);
    await expect.poll(pale).toBe(byNight);
    await page.close();
  });

  it.each(['light', 'dark'] as const)(
    'has nothing that axe-core finds wrong, %s',
    async (scheme) => {
      const { page } = await opened(browser, out, VENTILATOR, { colorScheme: scheme });
      await sliderOf(page).focus();
      await page.keyboard.press('ArrowRight');
      expect(await violationsOn(page)).toEqual([]);
      await page.close();
    },
  );
});

describe.runIf(chromiumIsHere)('the chart without scripts', () => {
  it('is the printed figure, with every reading in a table that unfolds', async () => {
    const { page } = await opened(browser, out, TIE, { javaScriptEnabled: false });
    expect(await page.locator('figure[data-figure="vitals"] .figure-frame > svg').isVisible()).toBe(
      true,
    );
    expect(await canvasOf(page).count()).toBe(0);
    const fold = page.locator('details.fold').filter({ hasText: 'All readings as a table' });
    expect(await fold.getByRole('table').isVisible()).toBe(false);
    await fold.locator('summary').click();
    const row = fold.getByRole('row').filter({ hasText: /^\s*40\s/ });
    const record = rowAt(40);
    const told = (await row.getByRole('cell').allTextContents()).map((text) => text.trim());
    expect(told).toContain(record['mean [mmHg]']);
    expect(told).toContain(record['heart rate [/min]']);
    await page.close();
  });
});
