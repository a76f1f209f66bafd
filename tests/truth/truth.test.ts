import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { TRUE_NAMES } from './catalogue.js';
import { rerun, truthPage } from './page.js';
import { isOffender, type Report, reportOn } from './report.js';
import { grid, type Result, resultOf } from './run.js';

/** Not that of the published page. */
const BASE = 7;

/** One lead, one seed, and of the noises one in turn: every rhythm of both species, clean and noisy. */
function subset(): Result[] {
  const clean = grid(1, { noise: 'clean', leads: 1 });
  const noisy = grid(1, { leads: 1 }).filter(
    (key, i) => key.noise !== 'clean' && key.level < 3 && i % 19 === 0,
  );
  return [...clean, ...noisy].map((key) => resultOf(key, BASE));
}

describe('generated strips of every rhythm', () => {
  const results = subset();
  const report = reportOn(results, { base: BASE, seeds: 1, engine: '' });

  it('come out under no normal name where they are dangerous', () => {
    expect(results.length).toBeGreaterThan(90);
    const offenders = results.filter(isOffender);
    for (const name of TRUE_NAMES) {
      const some = offenders.filter(({ rhythm }) => rhythm === name);
      const which = some.map((each) => rerun(each, BASE)).join('\n');
      expect(some.length, which).toBe(0);
    }
  });

  it('are named rightly as often as was measured', () => {
    const all = report.verdicts[0]!;
    expect(all.right / all.strips).toBeGreaterThan(0.76);
    expect((all.right + all.both) / all.strips).toBeGreaterThan(0.86);
    expect(all.right / (all.right + all.wrong)).toBeGreaterThan(0.95);
  });

  it('have nearly all of their beats found', () => {
    const { found, missed, extra } = report.beats.groups[1]!;
    expect(found / (found + missed)).toBeGreaterThan(0.99);
    expect(found / (found + extra)).toBeGreaterThan(0.99);
  });
});

describe('the truth page', () => {
  const docs = join(import.meta.dirname, '../../docs');
  const page = readFileSync(join(docs, 'truth.md'), 'utf8');

  it('is what its numbers give', () => {
    const report = JSON.parse(readFileSync(join(docs, 'truth.json'), 'utf8')) as Report;
    // Not printed whole where it differs.
    expect(page === truthPage(report), 'run npm run truth').toBe(true);
  });

  it('speaks of every rhythm', () => {
    expect(TRUE_NAMES.filter((name) => !page.includes(`| ${name} |`))).toEqual([]);
  });
});
