import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { readCounts } from '../../src/live/counts.js';
import { toldBeats } from '../../src/signal/told-beats.js';
import { chromiumIsHere } from '../tools/chromium.js';
import {
  button,
  DESK,
  EARLY,
  measuredWords,
  millivoltIn,
  open,
  PHONE,
  picture,
  shownBy,
  site,
  stripOf,
  told,
  UNNAMED,
  useStripPages,
} from './strip-page.js';

useStripPages();

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

  it('offers the leads of the anonymized record, and reads points on the one chosen', async () => {
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
