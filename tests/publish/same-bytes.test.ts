import { spawn } from 'node:child_process';
import { appendFileSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize } from 'node:v8';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { program } from '../cli/thrice.js';
import { bytesIn, TestClinic } from './clinic.js';

/** Runs a command in a process of its own, in the clinic's home. */
const runs = (words: readonly string[], env: object = {}) =>
  new Promise<{ code: number | null; out: string }>((done) => {
    const child = spawn(process.execPath, [program, ...words], {
      cwd: clinic.home,
      env: { ...process.env, ...env },
    });
    let out = '';
    child.stdout.on('data', (text) => (out += text));
    child.stderr.on('data', (text) => (out += text));
    child.on('close', (code) => done({ code, out }));
  });

const clinic = new TestClinic('clover', 'saffron');
const at = (name: string) => join(clinic.home, name);
let once: Record<string, string>;
beforeAll(async () => {
  const { code, out } = await runs(['build', 'clinic', '--out', 'once', '--no-cache']);
  expect(out, out).toContain('Built 2 cases');
  expect(code).toBe(0);
  once = bytesIn(at('once'));
}, 120_000);
afterAll(() => clinic.remove());

describe('the output is the same to the byte', () => {
  it('in another time zone, language and number of threads, with nothing kept before', async () => {
    const { code, out } = await runs(['build', 'clinic', '--out', 'threads', '--threads', '2'], {
      TZ: 'America/St_Johns',
      LANG: 'es_ES.UTF-8',
      LC_ALL: 'es_ES.UTF-8',
    });
    expect(code, out).toBe(0);
    expect(bytesIn(at('threads'))).toEqual(once);
  }, 120_000);

  it('from what was kept, and where that is spoilt, foreign or half gone', async () => {
    const build = () =>
      runs(['build', 'clinic', '--out', 'kept', '--cache', '.thrice-cache-threads']);
    expect((await build()).code).toBe(0);
    expect(bytesIn(at('kept'))).toEqual(once);
    const cache = at('.thrice-cache-threads');
    const files = readdirSync(cache, { withFileTypes: true, recursive: true })
      .filter((entry) => entry.isFile() && entry.parentPath !== cache)
      .map((entry) => join(entry.parentPath, entry.name))
      .sort();
    const bytes = files.map((file) => readFileSync(file));
    files.forEach((file, index) => {
      if (index % 3 === 0) rmSync(file);
      else if (index % 3 === 1) appendFileSync(file, Buffer.of(0));
      else writeFileSync(file, bytes[(index + 7) % bytes.length] as Buffer);
    });
    expect((await build()).code).toBe(0);
    expect(bytesIn(at('kept'))).toEqual(once);
  }, 120_000);

  it('where of a published case only what the search finds was lost, and the site is to be made anew', async () => {
    const build = () => runs(['build', 'clinic', '--out', 'lost', '--cache', '.thrice-cache-lost']);
    expect((await build()).code).toBe(0);
    const values = join(at('.thrice-cache-lost'), 'values');
    const lists = readdirSync(values, { withFileTypes: true, recursive: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      // Behind the seal of 32 bytes: the passages of documents, and what belongs to the parts of the site.
      .filter((file) => Array.isArray(deserialize(readFileSync(file).subarray(32))));
    expect(lists.length).toBeGreaterThan(3);
    for (const file of lists) rmSync(file);
    const { code, out } = await build();
    expect(code, out).toBe(0);
    expect(bytesIn(at('lost'))).toEqual(once);
  }, 120_000);

  it('joined from shares that two processes made, one of them lost on the way', async () => {
    const made = await Promise.all(
      [1, 2].map((share) =>
        runs(['build', 'clinic', '--shard', `${share}/2`, '--out', `share-${share}`]),
      ),
    );
    expect(made.map(({ code }) => code)).toEqual([0, 0]);
    const joined = await runs(['merge', 'clinic', 'share-1', 'share-2', '--out', 'joined']);
    expect(joined.code, joined.out).toBe(0);
    expect(bytesIn(at('joined'))).toEqual(once);
    expect(joined.out).toContain('Printed anew    0 of 2');
    rmSync(at('share-2'), { recursive: true });
    const short = await runs(['merge', 'clinic', 'share-1', 'share-2', '--out', 'short']);
    expect(short.code, short.out).toBe(0);
    expect(short.out).toContain('No share in share-2');
    expect(short.out).toContain('Printed anew    1 of 2');
    expect(bytesIn(at('short'))).toEqual(once);
  }, 240_000);
});

it('prints anew only the case that a change touches', async () => {
  const anew = async () => {
    const { code, out } = await runs(['build', 'clinic', '--out', 'changed', '--cache', 'changes']);
    return { code, anew: /Printed anew +(\d+)/.exec(out)?.[1] };
  };
  expect(await anew()).toEqual({ code: 0, anew: '2' });
  expect(await anew()).toEqual({ code: 0, anew: '0' });
  clinic.edit('cases/saffron/case.yaml', /$/, '# looked through\n');
  expect(await anew()).toEqual({ code: 0, anew: '0' });
  clinic.edit('cases/saffron/case.yaml', /collar: +\d+ days/, 'collar: 9 days');
  expect(await anew()).toEqual({ code: 0, anew: '1' });
  clinic.edit('clinic.yaml', 'phone: 555 0100', 'phone: 555 0101');
  expect(await anew()).toEqual({ code: 0, anew: '2' });
  clinic.restoreClinic();
  clinic.restore('saffron');
  expect(await anew()).toEqual({ code: 0, anew: '0' });
}, 240_000);
