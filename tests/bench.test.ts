import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'thrice-steps-'));
const node = (...words: string[]) =>
  execFileSync(process.execPath, words, { cwd: root, encoding: 'utf8' });

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the measures of a collection', () => {
  // Nothing else runs them before somebody asks what a build costs.
  it('tell what each step of a build takes, one case from two', () => {
    const typescript = dirname(createRequire(import.meta.url).resolve('typescript/package.json'));
    node(join(typescript, 'bin', 'tsc'), '-p', 'bench/tsconfig.json');
    const there = '.thrice-bench/bench/collection';
    for (const seed of ['5', '6']) {
      node(`${there}/write-collection.js`, '2', join(folder, seed), seed);
    }
    const told = node(`${there}/measure-steps.js`, join(folder, '5'), join(folder, '6'));
    const { cases, ...costs } = JSON.parse(told) as Record<string, number>;
    expect(cases).toBe(2);
    expect(Object.keys(costs)).toEqual(['read', 'print', 'eleventy', 'search']);
    for (const cost of Object.values(costs)) expect(cost).toBeGreaterThan(1);
    expect(costs.eleventy).toBeLessThan(costs.print as number);
  }, 120_000);
});
