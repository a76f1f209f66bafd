import { cpSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { LIVE_CASE, type LiveCase } from '../../src/live/contract.js';
import { readCounts, writeCounts } from '../../src/live/counts.js';
import { seconds } from '../../src/units/brands.js';
import { chromiumIsHere } from '../tools/chromium.js';
import { awaken } from './page.js';
import {
  dataOf,
  newPage,
  PHONE,
  shownBy,
  site,
  temporaryFolder,
  told,
  useStripPages,
} from './strip-page.js';

useStripPages();

describe.runIf(chromiumIsHere)('ten minutes at 500 Hz on a phone', () => {
  const long = temporaryFolder();

  it('come to life soon and slide smoothly with the processor slowed down four times', async () => {
    cpSync(site, long, { recursive: true });
    const name = 'ventilator-and-heartbeat';
    const page = dataOf(name);
    writeFileSync(
      join(long, name, 'teaching.data.js'),
      `globalThis.${LIVE_CASE} = ${JSON.stringify(repeated(page, 10))};\n`,
    );
    const phone = await newPage(PHONE);
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
