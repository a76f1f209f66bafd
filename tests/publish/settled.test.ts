import { renameSync } from 'node:fs';
import { afterAll, expect, it } from 'vitest';
import { build } from '../../src/publish/build.js';
import { disk } from '../../src/publish/disk.js';
import type { Effects } from '../../src/publish/effects.js';
import { settled } from '../../src/publish/settled.js';
import { good } from '../../src/record/problem.js';
import { strays, TestClinic } from './clinic.js';

/** A disk on which somebody saves a file just after it was read, so many times. */
function restless(saves: number): Effects {
  let version = 0;
  return {
    readBytes: () => {
      const bytes = new TextEncoder().encode(`version ${version}`);
      if (version < saves) version++;
      return good(bytes);
    },
    folders: () => [],
    files: () => [],
    exists: () => true,
    stamp: () => `${version}`,
    progress: () => {},
  };
}
const text = (effects: Effects) => {
  const bytes = effects.readBytes('case.yaml');
  return bytes.ok ? good(new TextDecoder().decode(bytes.value)) : bytes;
};

it('reads again where a file was saved meanwhile', () => {
  expect(settled(restless(0), text)).toEqual(good('version 0'));
  expect(settled(restless(3), text)).toEqual(good('version 3'));
});

it('gives up on a file that never rests, and names it', () => {
  expect(settled(restless(1000), text)).toMatchObject({
    ok: false,
    problems: [{ file: 'case.yaml', found: 'a file that keeps changing while it is read' }],
  });
});

it('reads again where a file has come or gone meanwhile', () => {
  let there = false;
  const effects = { ...restless(0), exists: () => there, stamp: () => (there ? 'x' : null) };
  const seen: boolean[] = [];
  settled(effects, (still) => {
    seen.push(still.exists('teaching.md'));
    there = true;
    return good(null);
  });
  expect(seen).toEqual([false, true]);
});

const clinic = new TestClinic('clover', 'saffron');
afterAll(() => clinic.remove());

it('goes on without a case whose folder is renamed while it is read, and has it the next time', async () => {
  const real = disk(() => {});
  let renamed = false;
  const effects: Effects = {
    ...real,
    readBytes: (path) => {
      if (path.endsWith('saffron/vitals.csv') && !renamed) {
        renamed = true;
        renameSync(clinic.path('cases/saffron'), clinic.path('cases/basil'));
      }
      return real.readBytes(path);
    },
  };
  const options = { cases: clinic.folder, out: clinic.out, strict: false };
  const first = await build(options, effects);
  expect(first).toMatchObject({
    ok: true,
    value: { built: ['clover'], failed: [{ name: 'saffron' }] },
  });
  expect(strays(clinic.home)).toEqual([]);
  const second = await build(options, real);
  expect(second).toMatchObject({ ok: true, value: { built: ['basil', 'clover'], failed: [] } });
});
