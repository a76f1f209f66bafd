import { appendFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { house } from '../../../src/publish/house.js';
import { openStore } from '../../../src/publish/store/store.js';
import { accepted } from '../../record/sample.js';

const home = mkdtempSync(join(tmpdir(), 'held-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));

/** The compiled program: a thread reads no TypeScript. */
const { held, heldHere }: typeof import('../../../src/publish/store/held.js') = await import(
  pathToFileURL(join(house.root, 'dist', 'publish', 'store', 'held.js')).href
);

const store = accepted(openStore(join(home, 'store')));

/** @param count how many files, each with words of its own */
function keepPart(key: string, count: number) {
  const folder = join(store.scratch(), 'part');
  mkdirSync(folder);
  for (let i = 0; i < count; i++) writeFileSync(join(folder, `${i}`), `${key} ${i}`);
  return { key, files: store.keepFiles(key, folder) };
}

it.each([3, 150, 300])(
  'tells which parts of %d files each are as they were kept',
  async (count) => {
    const keys = ['a', 'b', 'c', 'd'].map(
      (letter) => letter.repeat(60) + String(count).padStart(4, '0'),
    );
    const parts = keys.map((key) => keepPart(key, count));
    expect(await held(parts, store)).toEqual([true, true, true, true]);
    const fileOf = (key: string, name: string) =>
      join(home, 'store', 'files', key.slice(0, 2), key, name);
    appendFileSync(fileOf(keys[1] as string, '2'), 'x');
    rmSync(fileOf(keys[2] as string, '0'));
    const expected = [true, false, false, true];
    expect(await held(parts, store)).toEqual(expected);
    expect(heldHere(parts, store)).toEqual(expected);
  },
);
