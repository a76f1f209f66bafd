import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, expect, it } from 'vitest';
import type { Effects } from '../../../src/publish/effects.js';
import { recalled, remembered } from '../../../src/publish/store/remembered.js';
import { openStore, type Store } from '../../../src/publish/store/store.js';
import { bad, good, type Outcome } from '../../../src/record/problem.js';
import { accepted } from '../../record/sample.js';

const home = mkdtempSync(join(tmpdir(), 'remembered-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));

/** A record names a file beside it; what both say is read. */
let files: Record<string, string>;
let readings: number;
let store: Store;
let count = 0;
beforeEach(() => {
  files = { record: 'strip', strip: 'beats' };
  readings = 0;
  store = accepted(openStore(join(home, `${count++}`)));
});
const effects: Effects = {
  readBytes: (path) => {
    const text = files[path];
    const none = {
      kind: 'no such file' as const,
      file: path,
      found: 'no such file',
      expected: 'a file',
      mend: 'Put it there.',
    };
    return text === undefined ? bad(none) : good(new TextEncoder().encode(text));
  },
  exists: (path) => path in files,
  folders: () => [],
  files: () => [],
  stamp: () => null,
  progress: () => {},
};
const read = (seed = 'a clinic'): Outcome<string> =>
  recalled<string>(store, seed, effects) ??
  remembered(store, seed, effects, (noted) => {
    readings++;
    const record = noted.readBytes('record');
    if (!record.ok) return record;
    const named = new TextDecoder().decode(record.value);
    const approved = noted.exists('approval') ? ' approved' : '';
    const beside = noted.readBytes(named);
    return beside.ok ? good(new TextDecoder().decode(beside.value) + approved) : beside;
  });

it('reads once while nothing changes, problems included', () => {
  expect([read(), read(), readings]).toEqual([good('beats'), good('beats'), 1]);
  files = {};
  expect([read(), read()]).toEqual([read(), read()]);
  expect(readings).toBe(2);
});

it.each<[string, () => void, string]>([
  ['a file changes', () => (files.strip = 'other beats'), 'other beats'],
  ['a file that was looked for comes', () => (files.approval = ''), 'beats approved'],
  ['the record names another file', () => Object.assign(files, { record: 'b', b: 'bs' }), 'bs'],
])(
  'reads again where %s, and finds the first result again once that is undone',
  (_, change, now) => {
    const before = { ...files };
    read();
    change();
    expect([read(), readings]).toEqual([good(now), 2]);
    files = before;
    expect(read()).toEqual(good('beats'));
  },
);

it('reads again where something changes that is no file', () => {
  read();
  read('another clinic');
  expect(readings).toBe(2);
});

it('does not look at a file that the record names no more', () => {
  read();
  Object.assign(files, { record: 'b', b: 'bs' });
  read();
  files.strip = 'changed';
  expect([read(), readings]).toEqual([good('bs'), 2]);
});
