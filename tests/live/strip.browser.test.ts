import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { runInNewContext } from 'node:vm';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LIVE_CASE, type LiveCase } from '../../src/live/contract.js';
import { readCounts, writeCounts } from '../../src/live/counts.js';
import { toldBeats } from '../../src/signal/told-beats.js';
import { seconds } from '../../src/units/brands.js';
import { demoSite, spanishSite } from '../demo-site.js';
import { violationsOn } from '../publish/axe.js';
import { awaken } from './page.js';

const CHROMIUM = '/usr/bin/chromium';
const chromiumIsHere = existsSync(CHROMIUM);
if (!chromiumIsHere) console.log(`skipped: there is no ${CHROMIUM}`);

/** Early beats, two leads, a start that is known. */
const EARLY = 'seven-early-beats';
/** One lead, and no rhythm that could be named. */
const UNNAMED = 'a-patient-that-must-keep-eating';

const DESK = { viewport: { width: 1100, height: 1000 } };
const PHONE = { viewport: { width: 375, height: 800 }, deviceScaleFactor: 2, hasTouch: true };
const NARROW = { viewport: { width: 320, height: 700 } };

let browser: Browser;
const temporary: string[] = [];
const site = chromiumIsHere ? join(await demoSite(), 'public') : '';
const spanish = chromiumIsHere ? await spanishSite() : '';

beforeAll(async () => {
  if (!chromiumIsHere) return;
  browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
}, 60_000);
afterAll(async () => {
  await browser?.close();
  for (const folder of temporary) rmSync(folder, { recursive: true, force: true });
});

async function open(
  name = EARLY,
  options: BrowserContextOptions = DESK,
  folder = site,
): Promise<Page> {
  const page = await browser.newPage(options);
  page.on('pageerror', (error) => {
    throw error;
  });
  await page.goto(pathToFileURL(join(folder, name, 'teaching.html')).href);
  await page.evaluate('document.fonts.ready');
  await awaken(page);
  return page;
}

function dataOf(name: string, folder = site): LiveCase {
  const globals: { [LIVE_CASE]?: LiveCase } = {};
  runInNewContext(readFileSync(join(folder, name, 'teaching.data.js'), 'utf8'), {
    globalThis: globals,
  });
  return globals[LIVE_CASE] as LiveCase;
}

const stripOf = (name: string) => {
  const [strip] = dataOf(name).strips;
  if (!strip) throw new Error(`${name} has no strip`);
  return strip;
};

const told = (page: Page) => page.locator('.strip-told').textContent() as Promise<string>;
const measuredWords = (page: Page) =>
  page.locator('.strip-measured').textContent() as Promise<string>;
const button = (page: Page, name: string) =>
  page.locator('.strip-live').getByRole('button', { name, exact: true });
const millivoltIn = (words: string | null) =>
  Number(/([+−]?[\d.]+) mV/.exec(words ?? '')?.[1]?.replace('−', '-'));
/** The picture on the paper; the same picture gives the same text. */
const picture = async (page: Page) => {
  await settled(page);
  return page.evaluate<string>(`document.querySelector('.strip-paper canvas').toDataURL()`);
};
/** Two frames later, what was asked for has been painted. */
const settled = (page: Page) =>
  page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))');
/** First and last second that the paper shows. */
const shownBy = async (page: Page) => {
  await settled(page);
  const name = (await page.locator('.strip-paper').getAttribute('aria-label')) as string;
  const [from, to] = [...name.matchAll(/\d+\.\d/g)].map(([number]) => Number(number));
  return [from as number, to as number] as const;
};

describe.runIf(chromiumIsHere)('stepping from beat to beat', () => {
  it('tells each of the first beats as the facts have it', async () => {
    const page = await open();
    const beats = toldBeats(stripOf(EARLY).analysis);
    await page.locator('.strip-paper').focus();
    for (const beat of beats.slice(0, 14)) {
      await page.keyboard.press('ArrowRight');
      const words = await told(page);
      expect(words).toContain(`Beat ${beat.number} of ${beats.length}`);
      expect(words).toContain(`R at ${beat.time.toFixed(2)} s`);
      if (typeof beat.rr === 'number')
        expect(words).toContain(`RR before it ${beat.rr.toFixed(3)} s`);
      else expect(words).toContain('No beat stands before it.');
      for (const [name, value] of [
        ['PR', beat.pr],
        ['QRS', beat.qrs],
        ['QT', beat.qt],
      ] as const) {
        if (value === null) expect(words).toMatch(new RegExp(`Withheld: [^.]*${name}`));
        else expect(words).toContain(`${name} ${value.toFixed(3)} s`);
      }
      expect(words).toContain(beat.p === 'seen' ? 'P: yes.' : 'P: ');
      expect(await page.locator('.strip-live [role=status]').textContent()).toBe(words);
    }
    await page.close();
  });

  it('names an early, wide beat as one, and tells that it has no P', async () => {
    const page = await open();
    const { beats } = stripOf(EARLY).analysis;
    const early = beats.findIndex(({ kind }) => kind === 'ventricular premature');
    expect(early).toBeGreaterThan(0);
    await page.locator('.strip-paper').focus();
    for (let press = 0; press <= early; press++) await page.keyboard.press('ArrowRight');
    const words = await told(page);
    expect(words).toContain('early, wide beat from the ventricles');
    expect(words).toContain('none seen');
    await page.close();
  });

  it('calls no beat sinus where no rhythm is named', async () => {
    const page = await open(UNNAMED);
    await button(page, 'Next beat').click();
    expect(await told(page)).toContain('origin withheld');
    expect(await told(page)).not.toMatch(/sinus/i);
    await page.locator('details.rows summary').click();
    const rows = page.getByRole('row');
    expect(await rows.count()).toBeGreaterThan(100);
    expect(await page.locator('details.rows').textContent()).not.toMatch(/sinus/i);
    await page.close();
  });

  it('goes to the last and the first beat, back and forth, and brings each into sight', async () => {
    const page = await open(EARLY, { ...DESK, reducedMotion: 'reduce' });
    const { beats } = stripOf(EARLY).analysis;
    const isSeen = async (index: number) => {
      const [from, to] = await shownBy(page);
      const { time } = beats[index] as (typeof beats)[number];
      return time >= from - 0.1 && time <= to + 0.1;
    };
    await page.locator('.strip-paper').focus();
    await page.keyboard.press('End');
    expect(await told(page)).toContain(`Beat ${beats.length} of`);
    expect(await isSeen(beats.length - 1)).toBe(true);
    await page.keyboard.press('ArrowRight');
    expect(await told(page)).toContain(`Beat ${beats.length} of`);
    await button(page, 'Beat before').click();
    expect(await told(page)).toContain(`Beat ${beats.length - 1} of`);
    await page.locator('.strip-paper').focus();
    await page.keyboard.press('Home');
    expect(await told(page)).toContain('Beat 1 of');
    expect(await isSeen(0)).toBe(true);
    await page.close();
  });

  it('takes the beat that is touched', async () => {
    const page = await open(EARLY, PHONE);
    await page.locator('.strip-paper').tap();
    const [from, to] = await shownBy(page);
    const number = Number(/Beat (\d+) of/.exec(await told(page))?.[1]);
    const { time } = stripOf(EARLY).analysis.beats[number - 1] as { time: number };
    expect(Math.abs(time - (from + to) / 2)).toBeLessThan(0.5);
    await page.close();
  });
});

describe.runIf(chromiumIsHere)('calipers', () => {
  const knob = (page: Page, name: string) => page.getByRole('slider', { name });

  it('hold the RR of the facts between two R that the keyboard has found', async () => {
    const page = await open();
    const { analysis, lead } = stripOf(EARLY);
    await button(page, 'Measure').focus();
    await page.keyboard.press('Enter');
    for (const [name, beat] of [
      ['First point', 2],
      ['Second point', 3],
    ] as const) {
      await knob(page, name).focus();
      await page.keyboard.press('Home');
      for (let press = 0; press < 60; press++) {
        await page.keyboard.press('ArrowRight');
        const at = await knob(page, name).getAttribute('aria-valuetext');
        if (at?.endsWith(`, R of beat ${beat}`)) break;
      }
      expect(await knob(page, name).getAttribute('aria-valuetext')).toContain(`R of beat ${beat}`);
    }
    const rr = toldBeats(analysis)[2]?.rr as number;
    const words = await measuredWords(page);
    const [, seconds, milliseconds, rate] =
      /([\d.]+) s \((\d+) ms\).*?(\d+)\/min/.exec(words) ?? [];
    const sample = 1 / lead.samplingRate;
    expect(Math.abs(Number(seconds) - rr)).toBeLessThanOrEqual(sample);
    expect(Math.abs(Number(milliseconds) / 1000 - rr)).toBeLessThanOrEqual(sample);
    expect(Number(rate)).toBe(Math.round(60 / rr));
    await page.close();
  });

  it('go sample by sample where they are not held to waves, and read the trace there', async () => {
    const page = await open();
    const { lead } = stripOf(EARLY);
    const counts = readCounts(lead.counts);
    await button(page, 'Measure').click();
    await button(page, 'Hold to waves').click();
    await knob(page, 'First point').focus();
    await page.keyboard.press('Home');
    for (let sample = 1; sample <= 5; sample++) {
      await page.keyboard.press('ArrowRight');
      const now = Number(await knob(page, 'First point').getAttribute('aria-valuenow'));
      expect(now).toBeCloseTo(sample / lead.samplingRate, 4);
      const words = await knob(page, 'First point').getAttribute('aria-valuetext');
      const millivolt = (counts[sample] as number) * lead.step;
      expect(Math.abs(millivoltIn(words) - millivolt)).toBeLessThan(0.0051);
    }
    await page.keyboard.press('PageUp');
    const now = Number(await knob(page, 'First point').getAttribute('aria-valuenow'));
    expect(now).toBeCloseTo(5 / lead.samplingRate + 0.1, 4);
    await page.close();
  });

  it('are dragged by a hand, and jump to a wave that is near', async () => {
    const page = await open(EARLY, { ...DESK, reducedMotion: 'reduce' });
    const [one, two, three] = stripOf(EARLY).analysis.beats.map(({ time }) => time) as number[];
    await button(page, 'Next beat').click();
    await button(page, 'Next beat').click();
    await button(page, 'Measure this RR').click();
    await page.locator('.strip-paper').scrollIntoViewIfNeeded();
    const [from] = await shownBy(page);
    const middleOf = async (name: string) => {
      const box = await knob(page, name).boundingBox();
      if (!box) throw new Error(`no knob for the ${name}`);
      return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    };
    const [first, second] = [await middleOf('First point'), await middleOf('Second point')];
    const perSecond = (second.x - first.x) / ((two as number) - (one as number));
    const to = first.x + ((three as number) - (one as number)) * perSecond;
    await page.mouse.move(second.x, second.y);
    await page.mouse.down();
    await page.mouse.move(to + 1, second.y, { steps: 5 });
    await page.mouse.up();
    expect(await knob(page, 'Second point').getAttribute('aria-valuetext')).toContain(
      'R of beat 3',
    );
    expect((await shownBy(page))[0]).toBe(from);
    await page.close();
  });

  it('measure the RR of the chosen beat at a press', async () => {
    const page = await open();
    const rr = toldBeats(stripOf(EARLY).analysis)[4]?.rr as number;
    await page.locator('.strip-paper').focus();
    for (let press = 0; press < 5; press++) await page.keyboard.press('ArrowRight');
    await button(page, 'Measure this RR').click();
    expect(await measuredWords(page)).toContain(`${rr.toFixed(3)} s`);
    await expect
      .poll(() => page.locator('.strip-live [role=status]').textContent())
      .toContain(`${rr.toFixed(3)} s`);
    await button(page, 'Measure').click();
    expect(await knob(page, 'First point').isVisible()).toBe(false);
    await page.close();
  });
});

describe.runIf(chromiumIsHere)('what the strip shows', () => {
  it('leaves out the letters of a wave that are not wanted, and brings them back', async () => {
    const page = await open();
    const whole = await picture(page);
    for (const wave of ['P', 'QRS', 'T']) {
      await button(page, wave).click();
      expect(await button(page, wave).getAttribute('aria-pressed')).toBe('false');
      const without = await picture(page);
      expect(without, wave).not.toBe(whole);
      await button(page, wave).click();
      // The pointer left the button for nothing that is painted.
      expect(await picture(page), wave).toBe(whole);
    }
    await page.close();
  });

  it('offers the leads of the anonymised record, and reads points on the one chosen', async () => {
    const page = await open();
    const { lead, others, analysis } = stripOf(EARLY);
    const leads = page.locator('.strip-live select');
    const header = readFileSync(join(site, EARLY, 'ecg_1.hea'), 'utf8');
    for (const label of await leads.locator('option').allTextContents()) {
      expect(header).toContain(label);
    }
    const before = await picture(page);
    await button(page, 'Measure this RR').click();
    await leads.selectOption('ECG I');
    expect(await picture(page)).not.toBe(before);
    const other = others.find(({ label }) => label === 'ECG I');
    if (!other) throw new Error('no lead I');
    expect(lead.label).toBe('ECG II');
    const time = analysis.beats[0]?.time as number;
    const near = readCounts(other.counts)
      .slice(Math.floor(time * other.samplingRate), Math.ceil(time * other.samplingRate) + 1)
      .map((count) => count * other.step);
    const words = await page
      .getByRole('slider', { name: 'First point' })
      .getAttribute('aria-valuetext');
    const shown = millivoltIn(words);
    expect(shown).toBeGreaterThanOrEqual(Math.min(...near) - 0.006);
    expect(shown).toBeLessThanOrEqual(Math.max(...near) + 0.006);
    await page.close();
  });

  it('has no choice of leads where there is one', async () => {
    const page = await open(UNNAMED);
    expect(await page.locator('.strip-live button').count()).toBeGreaterThan(8);
    expect(await page.locator('.strip-live select').count()).toBe(0);
    await page.close();
  });

  it('shows half the time at twice the paper speed, and at twice the size', async () => {
    const page = await open();
    const seconds = async () => {
      const [from, to] = await shownBy(page);
      return to - from;
    };
    const slow = await seconds();
    await button(page, '50 mm/s').click();
    expect(await button(page, '25 mm/s').getAttribute('aria-pressed')).toBe('false');
    expect(await seconds()).toBeCloseTo(slow / 2, 0);
    await button(page, '25 mm/s').click();
    expect(await seconds()).toBeCloseTo(slow, 0);
    await button(page, 'Larger').click();
    await button(page, 'Larger').click();
    expect(await seconds()).toBeCloseTo(slow / 2, 0);
    await page.close();
  });

  it('is at true scale at size 1: 25 mm for a second, 96 CSS pixels for an inch', async () => {
    const page = await open();
    await page.locator('.strip-paper').focus();
    await page.keyboard.press('0');
    const [from, to] = await shownBy(page);
    const width = await page.locator('.strip-paper').evaluate((one) => one.clientWidth);
    expect(to - from).toBeCloseTo(width / ((25 / 25.4) * 96), 0);
    await page.close();
  });

  it('slides under hand, wheel and keys, and jumps from the small strip', async () => {
    const page = await open(EARLY, { ...DESK, reducedMotion: 'reduce' });
    await page.locator('.strip-live').scrollIntoViewIfNeeded();
    const box = await page.locator('.strip-paper').boundingBox();
    const whole = await page.locator('.strip-whole').boundingBox();
    if (!box || !whole) throw new Error('no strip');
    const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    await page.mouse.move(middle.x, middle.y);
    await page.mouse.down();
    await page.mouse.move(middle.x - 300, middle.y, { steps: 6 });
    await page.mouse.up();
    const [dragged] = await shownBy(page);
    expect(dragged).toBeGreaterThan(1);
    await page.mouse.wheel(200, 0);
    const [wheeled] = await shownBy(page);
    expect(wheeled).toBeGreaterThan(dragged + 0.5);
    await page.locator('.strip-paper').focus();
    await page.keyboard.press('PageDown');
    const [paged] = await shownBy(page);
    expect(paged).toBeGreaterThan(wheeled + 3);
    await page.mouse.click(whole.x + whole.width / 2, whole.y + 20);
    const [from, to] = await shownBy(page);
    expect((from + to) / 2).toBeCloseTo(30, 0);
    await page.getByRole('slider', { name: 'Part of the strip that is shown' }).focus();
    await page.keyboard.press('ArrowRight');
    expect((await shownBy(page))[0]).toBeGreaterThan(from + 0.5);
    await page.keyboard.press('End');
    expect((await shownBy(page))[1]).toBeCloseTo(60, 1);
    await page.close();
  });

  it('grows and slides under two fingers, around what is between them', async () => {
    const page = await open(EARLY, { ...PHONE, reducedMotion: 'reduce' });
    await page.locator('.strip-paper').scrollIntoViewIfNeeded();
    const box = await page.locator('.strip-paper').boundingBox();
    if (!box) throw new Error('no paper');
    const [from, to] = await shownBy(page);
    const devtools = await page.context().newCDPSession(page);
    const y = box.y + box.height / 2;
    const middle = box.x + box.width / 2;
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', apart: number) =>
      devtools.send('Input.dispatchTouchEvent', {
        type,
        touchPoints:
          type === 'touchEnd'
            ? []
            : [
                { x: middle - apart / 2, y, id: 1 },
                { x: middle + apart / 2, y, id: 2 },
              ],
      });
    await touch('touchStart', 80);
    for (let apart = 80; apart <= 160; apart += 10) await touch('touchMove', apart);
    await touch('touchEnd', 0);
    const [left, right] = await shownBy(page);
    expect((right - left) / (to - from)).toBeGreaterThan(0.4);
    expect((right - left) / (to - from)).toBeLessThan(0.65);
    expect(Math.abs((left + right) / 2 - (from + to) / 2)).toBeLessThan(0.4);
    await page.close();
  });

  it('lets the page scroll under a wheel that turns up and down', async () => {
    const page = await open();
    await page.locator('.strip-paper').scrollIntoViewIfNeeded();
    const box = await page.locator('.strip-paper').boundingBox();
    if (!box) throw new Error('no paper');
    const before = await page.evaluate<number>('scrollY');
    await page.mouse.move(box.x + 50, box.y + 50);
    await page.mouse.wheel(0, 150);
    await expect.poll(() => page.evaluate<number>('scrollY')).toBeGreaterThan(before);
    await page.close();
  });
});

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
  const still = mkdtempSync(join(tmpdir(), 'thrice-still-'));
  temporary.push(still);
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

describe.runIf(chromiumIsHere)('ten minutes at 500 Hz on a phone', () => {
  const long = mkdtempSync(join(tmpdir(), 'thrice-long-'));
  temporary.push(long);

  it('come to life soon and slide smoothly with the processor slowed down four times', async () => {
    cpSync(site, long, { recursive: true });
    const name = 'ventilator-and-heartbeat';
    const page = dataOf(name);
    writeFileSync(
      join(long, name, 'teaching.data.js'),
      `globalThis.${LIVE_CASE} = ${JSON.stringify(repeated(page, 10))};\n`,
    );
    const phone = await browser.newPage(PHONE);
    const devtools = await phone.context().newCDPSession(phone);
    await devtools.send('Emulation.setCPUThrottlingRate', { rate: 4 });
    await phone.goto(pathToFileURL(join(long, name, 'teaching.html')).href);
    await awaken(phone);
    await phone.locator('.strip-live').waitFor();
    expect(await told(phone)).not.toBe('');
    const [, last] = await (async () => {
      await phone.locator('.strip-paper').focus();
      await phone.keyboard.press('End');
      await expect.poll(async () => (await shownBy(phone))[1]).toBe(600);
      return shownBy(phone);
    })();
    expect(last).toBe(600);
    const frames = await phone.evaluate<{ zoomed: number[]; whole: number[] }>(SLIDE);
    for (const [what, times] of Object.entries(frames)) {
      const sorted = [...times].sort((a, b) => a - b);
      const median = sorted[sorted.length >> 1] as number;
      const late = sorted[Math.floor(sorted.length * 0.95)] as number;
      console.log(`${what}: median ${median.toFixed(1)} ms a frame, 95th ${late.toFixed(1)} ms`);
      // Generous, as this machine may be busy: twelve frames a second at the least.
      expect(median, what).toBeLessThan(80);
    }
    await phone.close();
  });
});

/** Slides the paper a little in each frame, near and then from afar, and gives how long the frames took, ms. */
const SLIDE = `(async () => {
  const paper = document.querySelector('.strip-paper');
  const slide = async () => {
    const times = [];
    let last = await new Promise(requestAnimationFrame);
    for (let frame = 0; frame < 60; frame++) {
      paper.dispatchEvent(new WheelEvent('wheel', { deltaX: -40, bubbles: true, cancelable: true }));
      const now = await new Promise(requestAnimationFrame);
      times.push(now - last);
      last = now;
    }
    return times;
  };
  const zoomed = await slide();
  const smaller = document.querySelectorAll('.strip-live .sign')[0];
  for (let press = 0; press < 5; press++) smaller.click();
  const whole = await slide();
  return { zoomed, whole };
})()`;

/** The same strip some times over, one after the other. */
function repeated(page: LiveCase, times: number): LiveCase {
  return {
    ...page,
    strips: page.strips.map((strip) => {
      const counts = readCounts(strip.lead.counts);
      const { duration, beats, quality, rhythms } = strip.analysis;
      const starts = Array.from({ length: times }, (_, copy) => copy * duration);
      return {
        ...strip,
        others: [],
        lead: { ...strip.lead, counts: writeCounts(starts.flatMap(() => counts)) },
        analysis: {
          ...strip.analysis,
          duration: seconds(duration * times),
          beats: starts.flatMap((by) => later(beats, by)),
          quality: { ...quality, spans: starts.flatMap((by) => later(quality.spans, by)) },
          rhythms: starts.flatMap((by) => later(rhythms, by)),
        },
      };
    }),
  };
}

/** The same times, some seconds later; sureness is no time. */
const later = <T>(value: T, by: number): T =>
  JSON.parse(
    JSON.stringify(value, (key, part) =>
      typeof part === 'number' && key !== 'confidence' ? part + by : part,
    ),
  ) as T;
