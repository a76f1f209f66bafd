import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from '../cli/thrice.js';

const page = readFileSync(join(root, 'docs/privacy.md'), 'utf8');
const rows = page
  .split('\n')
  .filter((line) => /^\| \([A-R]\)/.test(line))
  .map((line) => line.split('|').map((cell) => cell.trim()));

describe('the list of what is kept from the public', () => {
  it('has each item of 45 CFR 164.514(b)(2)(i), (A) to (R), once and in order', () => {
    expect(rows.map(([, item = '']) => item.slice(1, 2)).join('')).toBe('ABCDEFGHIJKLMNOPQR');
  });

  it('names tests that are there, or says that there is none', () => {
    for (const [, item, , , tests = ''] of rows) {
      const named = [...tests.matchAll(/`([^`]+)`/g)].map(([, name]) => name as string);
      expect(named.length > 0 || tests === 'none', item).toBe(true);
      for (const name of named) {
        expect(existsSync(join(root, 'tests', `${name}.test.ts`)), name).toBe(true);
      }
    }
  });

  it('names files of the program that are there', () => {
    const named = [...page.matchAll(/`((?:src\/)?(?:privacy|publish)\/[\w/-]+\.ts)`/g)];
    expect(named.length).toBeGreaterThan(3);
    for (const [, name = ''] of named) {
      expect(existsSync(join(root, name.startsWith('src/') ? name : `src/${name}`)), name).toBe(
        true,
      );
    }
  });

  it.each(['en', 'es'])('says to clients, %s, what cannot be promised', (tag) => {
    const words = readFileSync(join(root, 'content', tag, 'privacy.md'), 'utf8');
    expect(words).toMatch(/cannot promise|no podemos prometer/);
    expect(words).not.toMatch(/\banonymous\b|\banónimo/i);
  });
});
