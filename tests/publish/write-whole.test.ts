import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';

/** Rights of each file at the moment in which its bytes are written. */
const written = vi.hoisted(() => ({ modes: [] as number[] }));
vi.mock('node:fs', async (original) => {
  const real = await original<typeof import('node:fs')>();
  return {
    ...real,
    renameSync: (from: string, to: string) => real.renameSync(from, to),
    chmodSync: (path: string, mode: number) => {
      if (path.endsWith('.thrice-draft')) written.modes.push(real.statSync(path).mode & 0o777);
      real.chmodSync(path, mode);
    },
  };
});

const { writeWhole } = await import('../../src/publish/write-whole.js');

const home = mkdtempSync(join(tmpdir(), 'thrice-test-'));
const bytes = new TextEncoder().encode('approved');
const rights = (name: string) => statSync(join(home, name)).mode & 0o777;
let mask: number;
beforeAll(() => {
  mask = process.umask(0o022);
});
afterAll(() => {
  process.umask(mask);
  rmSync(home, { recursive: true });
});

describe('a file that is written as a whole', () => {
  it.each([
    ['private.yaml', 'may not', 0o600],
    ['drawing.svg', 'may read', 0o644],
  ] as const)('%s is its owner’s alone as a draft, then as asked', (name, others, mode) => {
    written.modes = [];
    expect(writeWhole(join(home, name), bytes, others).ok).toBe(true);
    expect(written.modes).toEqual([0o600]);
    expect(rights(name)).toBe(mode);
    expect(readFileSync(join(home, name), 'utf8')).toBe('approved');
  });

  it('keeps the rights of the file that it replaces', () => {
    writeFileSync(join(home, 'shared.yaml'), 'before');
    chmodSync(join(home, 'shared.yaml'), 0o640);
    expect(writeWhole(join(home, 'shared.yaml'), bytes, 'may not').ok).toBe(true);
    expect(rights('shared.yaml')).toBe(0o640);
  });

  it('writes through no link, neither its own nor one in the place of its draft', () => {
    const elsewhere = join(home, 'elsewhere');
    writeFileSync(elsewhere, 'mine');
    symlinkSync(elsewhere, join(home, 'link.yaml'));
    expect(writeWhole(join(home, 'link.yaml'), bytes, 'may not')).toMatchObject({
      ok: false,
      problems: [{ found: 'something that is no file' }],
    });
    symlinkSync(elsewhere, join(home, 'new.yaml.thrice-draft'));
    expect(writeWhole(join(home, 'new.yaml'), bytes, 'may not').ok).toBe(true);
    expect(readFileSync(elsewhere, 'utf8')).toBe('mine');
    expect(readdirSync(home).filter((name) => name.endsWith('draft'))).toEqual([]);
  });
});
