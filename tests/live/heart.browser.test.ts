import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LiveCase } from '../../src/live/contract.js';
import { demoSite } from '../demo-site.js';
import { violationsOn } from '../publish/axe.js';
import { chromiumIsHere, useBrowser } from '../tools/chromium.js';
import { awaken } from './page.js';

const site = join(await demoSite(), 'public');
const dataOf = (address: string): LiveCase =>
  JSON.parse(
    readFileSync(join(site, address, 'teaching.data.js'), 'utf8').replace(/^[^=]*=|;\s*$/g, ''),
  );
const EARLY = 'seven-early-beats';
const FAST = 'a-patient-that-must-keep-eating';

const browser = useBrowser();

/** The page of a case with its heart in view; whatever the browser complains of is an error. */
async function open(address: string, options: BrowserContextOptions = {}) {
  const page = await browser.newPage({ viewport: { width: 1100, height: 900 }, ...options });
  const complaints: string[] = [];
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(pathToFileURL(join(site, address, 'teaching.html')).href);
  await awaken(page);
  await page.locator('[data-figure="heart"]').scrollIntoViewIfNeeded();
  return { page, complaints };
}

const panel = (page: Page) => page.locator('[data-figure="heart"]');
const button = (page: Page, name: string) => panel(page).getByRole('button', { name, exact: true });
const told = async (page: Page) => (await page.locator('.heart-says').textContent()) ?? '';
/** How many marks of a part stand in which state. */
const states = (page: Page, part: string) =>
  page
    .locator(`[data-part="${part}"]`)
    .evaluateAll((all) =>
      Object.fromEntries(
        [
          ...new Set(
            all.map((one) => (one as unknown as { dataset: { state: string } }).dataset.state),
          ),
        ].map((state) => [
          state,
          all.filter(
            (one) => (one as unknown as { dataset: { state: string } }).dataset.state === state,
          ).length,
        ]),
      ),
    );
const secondOf = async (page: Page) =>
  Number(await page.getByRole('slider', { name: 'Place on the strip' }).inputValue());
async function goTo(page: Page, second: number) {
  await page.getByRole('slider', { name: 'Place on the strip' }).evaluate((slider, to) => {
    (slider as unknown as { value: string }).value = String(to);
    slider.dispatchEvent(new Event('input'));
  }, second);
}

describe.runIf(chromiumIsHere)('the heart in step with its strip', () => {
  const { beats } = (dataOf(EARLY).strips[0] as LiveCase['strips'][number]).analysis;
  const beat = beats[1] as (typeof beats)[number];
  let page: Page;
  let complaints: string[];
  beforeAll(async () => {
    ({ page, complaints } = await open(EARLY));
  }, 30_000);
  afterAll(async () => {
    expect(complaints).toEqual([]);
    await page?.close();
  });

  it('shows at P what the facts say: part of the atria excited from the sinus node, the ventricles at rest', async () => {
    await goTo(page, beat.p?.peak as number);
    expect(await told(page)).toContain(beat.p?.onset.toFixed(3));
    expect(await told(page)).toContain(beat.p?.end.toFixed(3));
    const right = await states(page, 'right atrium wall');
    const left = await states(page, 'left atrium wall');
    expect(right.excited).toBeGreaterThan(0);
    expect(left.rest).toBeGreaterThan(0);
    expect(await states(page, 'sinus node')).toEqual({ lit: 1 });
    expect(Object.keys(await states(page, 'left ventricle wall'))).toEqual(['rest']);
  });

  it('shows at QRS the bundle carrying and the front within the ventricles', async () => {
    const { onset, end } = beat.qrs as NonNullable<typeof beat.qrs>;
    await goTo(page, (onset + end) / 2);
    expect(await told(page)).toContain(onset.toFixed(3));
    expect(await states(page, 'bundle')).toEqual({ lit: 1 });
    const wall = await states(page, 'left ventricle wall');
    expect(wall.excited).toBeGreaterThan(10);
    expect(wall.rest).toBeGreaterThan(5);
  });

  it('shows at T the ventricles recovering, and the node holding between P and QRS', async () => {
    await goTo(page, beat.t?.peak as number);
    expect(Object.keys(await states(page, 'left ventricle wall'))).toEqual(['recovering']);
    await goTo(page, (beat.p?.end as number) + 0.004);
    expect(await states(page, 'node')).toEqual({ held: 1 });
    expect(await told(page)).toContain('AV node holds');
  });

  it('tells an early beat: no bundle, no P, no front', async () => {
    const early = beats.find(({ kind }) => kind === 'ventricular premature');
    await goTo(page, early?.time as number);
    expect(await told(page)).toMatch(
      /early beat from the ventricles.*no P belongs to it.*not known/s,
    );
    expect(await states(page, 'bundle')).toEqual({ unused: 1 });
    expect(Object.keys(await states(page, 'left ventricle wall'))).toEqual(['front']);
    expect(Object.keys(await states(page, 'right atrium wall'))).toEqual(['unknown']);
  });

  it('claims nothing before the first beat', async () => {
    await goTo(page, 0);
    expect(await told(page)).toContain('Nothing is claimed');
    expect(Object.keys(await states(page, 'left ventricle wall'))).toEqual(['unknown']);
  });

  it('plays at real and at slow speed, and pauses', async () => {
    // A busy machine lets a click wait: more than the time from before the first to after the second was not played.
    const played = async (speed: string, during: number) => {
      await panel(page).getByLabel('Speed').selectOption(speed);
      await goTo(page, 10);
      const begun = performance.now();
      await button(page, 'Play').click();
      await page.waitForTimeout(during);
      await button(page, 'Pause').click();
      const most = (performance.now() - begun) / 1000;
      return { seconds: (await secondOf(page)) - 10, most };
    };
    const real = await played('real', 1500);
    expect(real.seconds).toBeGreaterThan(0.7);
    expect(real.seconds).toBeLessThan(real.most + 0.05);
    const slow = await played('tenth', 1500);
    expect(slow.seconds).toBeGreaterThan(0.07);
    expect(slow.seconds).toBeLessThan(0.1 * slow.most + 0.05);
    const still = await secondOf(page);
    await page.waitForTimeout(300);
    expect(await secondOf(page)).toBe(still);
  }, 30_000);

  it('steps from beat to beat', async () => {
    await goTo(page, 0);
    for (const { time } of beats.slice(0, 4)) {
      await button(page, 'Next beat').click();
      expect(await secondOf(page)).toBeCloseTo(time, 1);
    }
    await button(page, 'Beat before').click();
    expect(await page.locator('.heart-where').textContent()).toMatch(/beat 3 of 95/);
  });

  it('shows the blood on request, a little after the current, and says that it was not measured', async () => {
    const onset = beat.qrs?.onset as number;
    const streams = () => states(page, 'stream out');
    expect(await page.locator('.heart-delays').isVisible()).toBe(false);
    await page.getByLabel('Show the way of the blood').check();
    expect(await page.locator('.heart-delays').textContent()).toMatch(
      /was not measured.*unverified/s,
    );
    await goTo(page, onset + 0.01);
    expect(await page.locator('.heart-flow').textContent()).not.toMatch(
      /lungs, and at the same time/,
    );
    expect(Object.keys(await streams())).toEqual(['rest']);
    await goTo(page, onset + 0.09);
    expect(await page.locator('.heart-flow').textContent()).toMatch(/to the lungs/);
    expect(Object.keys(await streams())).toEqual(['lit']);
    const shut = await page.locator('[data-part="valve aortic"]').first().getAttribute('d');
    await goTo(page, onset + 0.5);
    expect(await page.locator('[data-part="valve aortic"]').first().getAttribute('d')).not.toBe(
      shut,
    );
    await page.getByLabel('Show the way of the blood').uncheck();
  });
});

describe.runIf(chromiumIsHere)('the heart for everybody', () => {
  it('is worked by the keyboard alone', async () => {
    const { page } = await open(EARLY);
    await page.locator('[data-figure="heart"] .figure-frame').focus();
    const reached: string[] = [];
    for (let i = 0; i < 8; i++) {
      await page.keyboard.press('Tab');
      reached.push(
        await page.evaluate<string>(
          `(({ textContent, type, localName }) => localName === 'button' ? textContent : type)(document.activeElement)`,
        ),
      );
    }
    expect(reached).toEqual([
      'range',
      'Play',
      'select-one',
      'Beat before',
      'Step back',
      'Step on',
      'Next beat',
      'checkbox',
    ]);
    await button(page, 'Step on').focus();
    const before = await told(page);
    await page.keyboard.press('Enter');
    expect(await told(page)).not.toBe(before);
    await page.getByRole('slider', { name: 'Place on the strip' }).focus();
    const place = await secondOf(page);
    await page.keyboard.press('ArrowRight');
    expect(await secondOf(page)).toBeGreaterThan(place);
    await page.close();
  });

  it('says every step aloud while one steps, and is silent while it plays', async () => {
    const { page } = await open(EARLY);
    await button(page, 'Step on').click();
    expect(await page.locator('.heart-told').getAttribute('aria-live')).toBe('polite');
    await button(page, 'Play').click();
    await expect.poll(() => page.locator('.heart-told').getAttribute('aria-live')).toBe('off');
    await page.close();
  });

  it('never plays by itself; where less motion is asked for Play shows stills', async () => {
    const { page } = await open(EARLY, { reducedMotion: 'reduce' });
    const start = await secondOf(page);
    await page.waitForTimeout(500);
    expect(await secondOf(page)).toBe(start);
    expect(await page.locator('.heart-remark').textContent()).toContain('less motion');
    await button(page, 'Play').click();
    const first = await secondOf(page);
    expect(first).toBeGreaterThan(start);
    await page.waitForTimeout(1000);
    expect(await secondOf(page)).toBe(first);
    await page.waitForTimeout(2000);
    const second = await secondOf(page);
    expect(second).toBeGreaterThan(first);
    expect(second - first).toBeLessThan(0.5);
    await page.close();
  }, 30_000);

  it('slows a heart that beats more than three times a second, and says so', async () => {
    const { page } = await open(FAST);
    await button(page, 'Play').click();
    await expect
      .poll(() => page.locator('.heart-remark').textContent())
      .toMatch(/shown at [6-9]\d % of real speed/);
    await page.close();
  });

  it('has room for fingers', async () => {
    const { page } = await open(EARLY, { viewport: { width: 375, height: 800 } });
    const controls = page.locator(
      '.heart-panel :is(button, select, input[type="range"], .heart-blood)',
    );
    expect(await controls.count()).toBe(8);
    for (const box of await controls.evaluateAll((all) =>
      all.map((one) => (one as unknown as { offsetHeight: number }).offsetHeight),
    )) {
      expect(box).toBeGreaterThanOrEqual(44);
    }
    await page.close();
  });

  it.each([375, 1100])(
    'moves nothing on the page when it comes to life, %i px wide',
    async (width) => {
      const page = await browser.newPage({ viewport: { width, height: 800 } });
      const figure = page.locator('[data-figure="heart"]');
      const address = pathToFileURL(join(site, EARLY, 'teaching.html')).href;
      // The same page with its own script kept from running: what is kept free must be what is needed.
      await page.route('**/case.js', (route) => route.abort());
      await page.goto(address);
      const kept = await figure.evaluate(
        (one) => (one as unknown as { offsetHeight: number }).offsetHeight,
      );
      await page.unroute('**/case.js');
      await page.goto(address);
      await awaken(page);
      const needed = await figure.evaluate(
        (one) => (one as unknown as { offsetHeight: number }).offsetHeight,
      );
      expect(needed).toBe(kept);
      // Nor with the longest that it has to say.
      await goTo(page, 5.87);
      expect(
        await figure.evaluate((one) => (one as unknown as { offsetHeight: number }).offsetHeight),
      ).toBe(kept);
      await page.close();
    },
  );

  it.each(['light', 'dark'] as const)(
    'has nothing that axe-core finds wrong, %s',
    async (colorScheme) => {
      const { page } = await open(EARLY, { colorScheme, viewport: { width: 375, height: 800 } });
      await page.getByLabel('Show the way of the blood').check();
      expect(await violationsOn(page)).toEqual([]);
      await page.close();
    },
    60_000,
  );

  it('is taken from strip to strip where a case has several, and offers no choice of one', async () => {
    const { page: single } = await open(EARLY);
    expect(
      await panel(single)
        .getByRole('combobox', { name: /^Strip/ })
        .count(),
    ).toBe(0);
    await single.close();

    const page = await browser.newPage({ viewport: { width: 1100, height: 900 } });
    // The strip of another case as the second of this one.
    const other = JSON.stringify(dataOf(FAST).strips[0]);
    await page.addInitScript(`Object.defineProperty(globalThis, 'thriceCase', {
      get() { return this.kept; },
      set(data) { this.kept = { ...data, strips: [...data.strips, { ...${other}, figure: 'strip-2' }] }; },
    })`);
    await page.goto(pathToFileURL(join(site, EARLY, 'teaching.html')).href);
    await awaken(page);
    await panel(page).scrollIntoViewIfNeeded();
    const place = panel(page).getByLabel('Place on the strip');
    const [first, second] = [dataOf(EARLY).strips[0], dataOf(FAST).strips[0]];
    expect(Number(await place.getAttribute('max'))).toBeCloseTo(first?.analysis.duration ?? 0, 3);
    await panel(page)
      .getByRole('combobox', { name: /^Strip/ })
      .selectOption('No. 2');
    expect(Number(await place.getAttribute('max'))).toBeCloseTo(second?.analysis.duration ?? 0, 3);
    const begins = second?.analysis.beats[1]?.p?.peak ?? second?.analysis.beats[0]?.time;
    expect(Number(await place.inputValue())).toBeCloseTo(begins ?? 0, 1);
    await page.close();
  });

  it('remains a labelled drawing without scripts, and on paper', async () => {
    const { page } = await open(EARLY, { javaScriptEnabled: false });
    const drawing = page.locator('[data-figure="heart"] svg');
    expect(await drawing.isVisible()).toBe(true);
    expect(await drawing.locator('[data-part^="label"]').count()).toBeGreaterThan(20);
    expect(await page.locator('.heart-panel').count()).toBe(0);
    const box = await page.locator('[data-figure="heart"]').boundingBox();
    expect(box?.height).toBeLessThan(520);
    await page.close();

    const { page: alive } = await open(EARLY);
    await goTo(alive, 0);
    await alive.emulateMedia({ media: 'print' });
    expect(await alive.locator('.heart-panel').isVisible()).toBe(false);
    const fill = `getComputedStyle(document.querySelector('[data-part="left ventricle wall"]')).fill`;
    expect(await alive.evaluate(fill)).toBe('rgb(217, 197, 186)');
    await alive.close();
  });
});
