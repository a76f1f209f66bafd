import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { exerciseFacts } from '../../src/facts/exercises.js';
import { demoSite, spanishSite } from '../demo-site.js';
import { demo } from '../facts/demo.js';
import { violationsOn } from '../publish/axe.js';
import { chromiumIsHere, useBrowser } from '../tools/chromium.js';
import { opened, wordsOf } from './page.js';

const out = await demoSite();
const spanish = await spanishSite();

const caseOf = (name: string) => {
  const loaded = demo.cases.find((one) => one.name === name);
  if (!loaded?.facts.published) throw new Error(`no published case ${name}`);
  return { address: loaded.facts.published.address, exercises: exerciseFacts(loaded.facts) };
};

/** What each question is answered with, rightly and wrongly, from the facts of its case. */
type Answer = (page: Page, right: boolean) => Promise<void>;

function answersFor(name: string): Map<string, Answer> {
  const choose = (page: Page, exercise: string, group: string, value: string) =>
    page.locator(`[data-exercise="${exercise}"] input[name="${group}"][value="${value}"]`).check();
  return new Map(
    caseOf(name).exercises.map((facts): [string, Answer] => {
      switch (facts.name) {
        case 'count-the-rate':
          return [
            facts.name,
            async (page, right) => {
              for (const [index, { beats }] of facts.windows.entries()) {
                await page.fill(
                  `#count-the-rate-window-${index}`,
                  String(right ? beats : beats + 5),
                );
              }
            },
          ];
        case 'estimate-the-mean':
          return [
            facts.name,
            (page, right) =>
              page.fill(
                '#estimate-the-mean-mean',
                String(right ? facts.estimate.toFixed(1).replace('.', ',') : facts.middle),
              ),
          ];
        case 'find-the-p':
          return [
            facts.name,
            async (page, right) => {
              for (const [index, { p }] of facts.beats.entries()) {
                const answer = right ? p : p === 'there' ? 'none' : 'there';
                await choose(page, facts.name, `beat-${index}`, answer);
              }
            },
          ];
        default: {
          const [key, other] =
            facts.name === 'goes-with-the-breath'
              ? [facts.verdict, facts.verdict === 'linked' ? 'not linked' : 'linked']
              : facts.name === 'trust-the-number'
                ? [facts.verdict, facts.verdict === 'about half' ? 'agrees' : 'about half']
                : [facts.first, 'both'];
          return [
            facts.name,
            (page, right) => choose(page, facts.name, facts.name, right ? key : other),
          ];
        }
      }
    }),
  );
}

const browser = useBrowser();

const section = (page: Page, name: string) => page.locator(`[data-exercise="${name}"]`);

async function judged(page: Page, name: string): Promise<string> {
  await section(page, name).getByRole('button').click();
  return wordsOf(section(page, name).getByRole('status'));
}

describe.runIf(chromiumIsHere)('a question on the page', () => {
  it.each(demo.cases.map(({ name }) => name))(
    'judges a right and a wrong answer by the facts of its case: %s',
    async (name) => {
      const { page, complaints } = await opened(browser, out, caseOf(name).address);
      const answers = answersFor(name);
      expect(answers.size).toBeGreaterThan(2);
      expect(await page.locator('[data-exercise]').count()).toBe(answers.size);
      for (const [exercise, answer] of answers) {
        await answer(page, false);
        expect(await judged(page, exercise), exercise).toMatch(/^Not quite\./);
        await answer(page, true);
        expect(await judged(page, exercise), exercise).toMatch(/^Right\./);
      }
      expect(complaints).toEqual([]);
      await page.close();
    },
  );

  it('asks for an answer, or for a number, before it judges', async () => {
    const { page } = await opened(browser, out, 'when-a-tie-slips');
    expect(await judged(page, 'trust-the-number')).toBe('Give an answer first.');
    await page.fill('#estimate-the-mean-mean', 'low');
    expect(await judged(page, 'estimate-the-mean')).toContain('Write a number here');
    const field = page.locator('#estimate-the-mean-mean');
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect(await page.evaluate('document.activeElement.id')).toBe('estimate-the-mean-mean');
    await page.fill('#estimate-the-mean-mean', '46');
    expect(await judged(page, 'estimate-the-mean')).toMatch(/^Right\./);
    expect(await field.getAttribute('aria-invalid')).toBeNull();
    await page.close();
  });

  it.each([1100, 375])('takes a mark on the strip for the P of its beat, %i px', async (width) => {
    const { page } = await opened(browser, out, caseOf('bramble').address, {
      viewport: { width, height: 800 },
    });
    const facts = caseOf('bramble').exercises.find((one) => one.name === 'find-the-p');
    if (facts?.name !== 'find-the-p') throw new Error('no such question');
    const asked = section(page, 'find-the-p');
    await asked.getByText('Point at each P').waitFor();
    const svg = asked.locator('figure svg');
    // Where the numbers stand over the beats tells the place of a second, without the program's own reckoning.
    const numbers = (await page.evaluate(`(() => {
      const drawing = document.querySelector('[data-exercise="find-the-p"] figure svg');
      const { left, top } = drawing.getBoundingClientRect();
      return Array.from({ length: ${facts.beats.length} }, (_, i) => {
        const number = [...drawing.querySelectorAll('text')].find((one) => one.textContent === String(i + 1));
        const box = number.getBoundingClientRect();
        return { x: (box.left + box.right) / 2 - left, y: box.bottom - top };
      });
    })()`)) as { x: number; y: number }[];
    const [first, last] = [numbers[0] as { x: number; y: number }, numbers.at(-1) as { x: number }];
    const [begin, end] = [facts.beats[0]?.time as number, facts.beats.at(-1)?.time as number];
    const pointAt = (time: number) =>
      svg.click({
        position: {
          x: first.x + ((time - begin) / (end - begin)) * (last.x - first.x),
          y: first.y + 20,
        },
      });
    for (const { wave } of facts.beats) if (wave) await pointAt((wave[0] + wave[1]) / 2);
    for (const [index, { p }] of facts.beats.entries()) {
      if (p !== 'there') await asked.locator(`input[name="beat-${index}"][value="${p}"]`).check();
    }
    expect(await svg.locator('.put-mark').count()).toBe(
      facts.beats.filter(({ wave }) => wave).length,
    );
    expect(await judged(page, 'find-the-p')).toMatch(/^Right\./);
    // On the T of the beat before it, in place of its P.
    const second = facts.beats[1]?.wave as readonly [number, number];
    await pointAt(begin + (second[0] - begin) / 3);
    expect(await judged(page, 'find-the-p')).toMatch(
      /Beat 2, not quite.*Your mark lies [\d.]+ s before it/,
    );
    await asked.locator('input[name="beat-1"][value="none"]').check();
    expect(await svg.locator('.put-mark').count()).toBe(facts.beats.length - 1);
    await page.close();
  });

  it('is answered with the keyboard alone', async () => {
    const { page } = await opened(browser, out, 'when-a-tie-slips');
    await page.locator('#estimate-the-mean-mean').focus();
    await page.keyboard.type('46');
    await page.keyboard.press('Enter');
    const told = section(page, 'estimate-the-mean').getByRole('status');
    expect(await wordsOf(told)).toMatch(/^Right\. 37 \+ \(64 − 37\) \/ 3 = 46 mmHg\./);
    const first = section(page, 'which-heals-first').locator('input').first();
    await first.focus();
    await page.keyboard.press('Space');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect(await wordsOf(section(page, 'which-heals-first').getByRole('status'))).toMatch(
      /^Right\./,
    );
    await page.close();
  });

  it('leaves the page as it is, sends nothing and keeps nothing', async () => {
    const { page } = await opened(browser, out, 'when-a-tie-slips');
    const requests: string[] = [];
    page.on('request', (request) => requests.push(request.url()));
    const before = page.url();
    for (const [exercise, answer] of answersFor('saffron')) {
      await answer(page, true);
      await judged(page, exercise);
    }
    expect(page.url()).toBe(before);
    expect(requests).toEqual([]);
    expect(await page.evaluate('localStorage.length + sessionStorage.length')).toBe(0);
    expect(await page.evaluate('document.cookie')).toBe('');
    await page.close();
  });

  it.each([
    ['light', 1100],
    ['dark', 1100],
    ['light', 320],
  ] as const)(
    'has nothing that axe-core finds wrong once judged, %s, %i px',
    async (scheme, width) => {
      const { page } = await opened(browser, out, 'when-a-tie-slips', {
        colorScheme: scheme,
        viewport: { width, height: 700 },
      });
      for (const [exercise, answer] of answersFor('saffron')) {
        await answer(page, exercise === 'find-the-p');
        await judged(page, exercise);
      }
      expect(await violationsOn(page)).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(
        width,
      );
      await page.close();
    },
  );
});

describe.runIf(chromiumIsHere)('a question without scripts', () => {
  it('stands with its answer folded away, and offers nothing to press', async () => {
    const { page } = await opened(browser, out, 'when-a-tie-slips', { javaScriptEnabled: false });
    const asked = section(page, 'estimate-the-mean');
    expect(await asked.getByText('What is the mean?').isVisible()).toBe(true);
    expect(await asked.locator('button').isVisible()).toBe(false);
    const answer = asked.locator('details p').first();
    expect(await answer.isVisible()).toBe(false);
    await asked.locator('summary').click();
    expect(await wordsOf(answer)).toContain('46 mmHg');
    await page.close();
  });

  it('is printed with its answer left out', async () => {
    const { page } = await opened(browser, out, 'when-a-tie-slips');
    await page.emulateMedia({ media: 'print' });
    const asked = section(page, 'estimate-the-mean');
    expect(await asked.getByText('What is the mean?').isVisible()).toBe(true);
    expect(await asked.locator('details').isVisible()).toBe(false);
    expect(await asked.locator('button').isVisible()).toBe(false);
    await page.close();
  });
});

describe.runIf(chromiumIsHere)('a page in Spanish', () => {
  it('asks, judges and reads its chart in Spanish, a decimal comma included', async () => {
    const { page, complaints } = await opened(browser, spanish, 'when-a-tie-slips');
    expect(await page.evaluate('document.documentElement.lang')).toBe('es');
    await page.fill('#estimate-the-mean-mean', '46,4');
    expect(await judged(page, 'estimate-the-mean')).toMatch(/^Correcto\. 37 \+ \(64 − 37\) \/ 3/);
    await page.fill('#estimate-the-mean-mean', '60');
    expect(await judged(page, 'estimate-the-mean')).toMatch(/^No del todo\./);
    await page.getByRole('slider', { name: 'Minuto' }).focus();
    await page.keyboard.press('End');
    expect(await wordsOf(page.locator('.vitals-values'))).toMatch(/^Minuto 85/);
    // The tool that looks for barriers asks for the style sheets again, which the page forbids.
    expect(complaints).toEqual([]);
    expect(await violationsOn(page)).toEqual([]);
    await page.close();
  });

  it('has its answers as a sheet beside it', async () => {
    const { page } = await opened(browser, spanish, 'ventilator-and-heartbeat');
    const link = page.getByRole('link', { name: 'Respuestas de los ejercicios (PDF)' });
    expect(await link.getAttribute('href')).toBe('answers.pdf');
    await page.close();
  });
});
