import { execFileSync } from 'node:child_process';
import { inFreshProcess } from '../fresh.js';
import type { Row } from '../row.js';
import type { OwnerSheetCost } from './measure-owner-sheet.js';

const COPIES = 2;
const ROUNDS = 5;

export const ownerSheet: Row = {
  name: 'sheet',
  title: "Owner's sheet of one case from its facts (PDF, calendar and page), warm",
  lines: function* () {
    // The program that is measured is the one that stands in src/.
    execFileSync('npm', ['run', '--silent', 'compile'], { stdio: 'inherit' });
    const cost = inFreshProcess<OwnerSheetCost>(
      new URL('./measure-owner-sheet.js', import.meta.url),
      [COPIES, ROUNDS],
    );
    const { sheets, first, pdfAndCalendar, html, browser } = cost;
    yield `one of ${sheets} sheets: ${ms(pdfAndCalendar + html)} CPU (PDF and calendar ${ms(pdfAndCalendar)}, page ${ms(html)}); the very first PDF and calendar ${ms(first)}`;
    yield browser === null
      ? 'not compared with a browser: there is no /usr/bin/chromium'
      : `the same pages opened and printed by headless Chromium, warm: ${ms(browser)} CPU, ${(browser / pdfAndCalendar).toFixed(1)} times the PDF and calendar, ${(browser / (pdfAndCalendar + html)).toFixed(1)} times all three`;
  },
};

const ms = (seconds: number): string => `${(1000 * seconds).toFixed(0)} ms`;
