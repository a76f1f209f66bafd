import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { openStore, type Store, sweepStore } from '../../../src/publish/store/store.js';
import { accepted } from '../../record/sample.js';

const home = mkdtempSync(join(tmpdir(), 'store-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));

const KEY = 'ab'.repeat(32);
const filesIn = (folder: string) =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
const valueFile = (folder: string) =>
  filesIn(join(folder, 'values')).find((file) => file.endsWith(KEY)) as string;

/** A folder with one file in a folder, kept under the key. */
function keepPage(store: Store, text: string) {
  const made = store.scratch();
  mkdirSync(join(made, 'work', 'public'), { recursive: true });
  writeFileSync(join(made, 'work', 'public', 'page.html'), text);
  const files = store.keepFiles(KEY, join(made, 'work'));
  rmSync(made, { recursive: true });
  return files;
}

it('gives back values as they were, typed arrays and maps too, and nothing where there is none', () => {
  const store = accepted(openStore(join(home, 'values')));
  const value = { samples: Float64Array.of(1, Number.NaN), map: new Map([['a', undefined]]) };
  expect(store.value(KEY)).toBeNull();
  store.keepValue(KEY, value);
  expect(store.value(KEY)).toEqual(value);
});

it('takes a value that is not byte for byte as it was kept for none', () => {
  const folder = join(home, 'spoilt');
  const store = accepted(openStore(folder));
  const spoil = (change: (bytes: Buffer) => Buffer) => {
    store.keepValue(KEY, { dose: '2 mg' });
    const file = valueFile(folder);
    writeFileSync(file, change(readFileSync(file)));
    return store.value(KEY);
  };
  store.keepValue(KEY, { dose: '2 mg' });
  const { length } = readFileSync(valueFile(folder));
  for (let byte = 0; byte < length; byte++) {
    const flipped = spoil((bytes) => {
      bytes[byte] = (bytes[byte] as number) ^ 4;
      return bytes;
    });
    expect(flipped).toBeNull();
  }
  for (const cut of [0, 1, 31, 32, 40]) expect(spoil((bytes) => bytes.subarray(0, cut))).toBeNull();
  expect(spoil(() => Buffer.from('something else'))).toBeNull();
  // Whole, and kept by this program, but under another key.
  const other = 'cd'.repeat(32);
  store.keepValue(other, { dose: '9 mg' });
  const theirs = filesIn(join(folder, 'values')).find((file) => file.endsWith(other)) as string;
  expect(spoil(() => readFileSync(theirs))).toBeNull();
});

it('holds files only as they were kept, and puts them in place', () => {
  const folder = join(home, 'files');
  const store = accepted(openStore(folder));
  const files = keepPage(store, 'Take 2 mg.');
  expect(files.map(({ path }) => path)).toEqual(['public/page.html']);
  expect(store.holds(KEY, files)).toBe(true);
  const out = join(home, 'placed');
  store.place(KEY, files, out);
  expect(readFileSync(join(out, 'public', 'page.html'), 'utf8')).toBe('Take 2 mg.');
  // Whoever edits a file of the output may edit the kept one with it: then it is made again.
  writeFileSync(join(out, 'public', 'page.html'), 'Take 9 mg.');
  expect(store.holds(KEY, files)).toBe(false);
  expect(store.holds(KEY, keepPage(store, 'Take 2 mg.'))).toBe(true);
  expect(readFileSync(join(out, 'public', 'page.html'), 'utf8')).toBe('Take 9 mg.');
});

it('reads other stores where it lacks something, and writes to none of them', () => {
  const other = join(home, 'other');
  const theirs = accepted(openStore(other));
  theirs.keepValue(KEY, 1);
  const files = keepPage(theirs, 'A page.');
  const before = filesIn(other).map((file) => [file, statSync(file).mtimeMs]);
  const own = join(home, 'own');
  const store = accepted(openStore(own, [join(home, 'nowhere'), other]));
  expect(store.value(KEY)).toBe(1);
  expect(store.holds(KEY, files)).toBe(true);
  store.place(KEY, files, join(home, 'from-other'));
  expect(existsSync(join(home, 'from-other', 'public', 'page.html'))).toBe(true);
  store.keepValue(KEY, 2);
  expect(store.value(KEY)).toBe(2);
  expect(filesIn(other).map((file) => [file, statSync(file).mtimeMs])).toEqual(before);
});

it('is closed to others, and refuses a folder that holds other things', () => {
  const folder = join(home, 'closed');
  openStore(folder);
  expect(statSync(folder).mode & 0o777).toBe(0o700);
  expect(readFileSync(join(folder, '.gitignore'), 'utf8')).toBe('*\n');
  const mine = join(home, 'mine');
  mkdirSync(mine);
  writeFileSync(join(mine, 'notes.txt'), 'keep');
  expect(openStore(mine)).toMatchObject({
    ok: false,
    problems: [{ file: mine, found: 'something that no build has made' }],
  });
  expect(readdirSync(mine)).toEqual(['notes.txt']);
});

it('loses what was not used for a day, and keeps what was', () => {
  const folder = join(home, 'swept');
  const store = accepted(openStore(folder));
  store.keepValue(KEY, 1);
  store.keepValue('cd'.repeat(32), 2);
  const old = new Date(Date.now() - 2 * 86_400_000);
  for (const file of filesIn(join(folder, 'values'))) utimesSync(file, old, old);
  expect(store.value(KEY)).toBe(1);
  sweepStore(folder, Date.now());
  expect([store.value(KEY), store.value('cd'.repeat(32))]).toEqual([1, null]);
});
