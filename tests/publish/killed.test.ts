import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openDraft } from '../../src/publish/output-folder.js';
import { program, root, spawned } from '../cli/thrice.js';
import { bytesIn, strays, TestClinic } from './clinic.js';

/** Moments to kill at, the same in every run. */
function randoms(seed: string): () => number {
  let count = 0;
  return () => createHash('sha256').update(`${seed} ${count++}`).digest().readUInt32BE() / 2 ** 32;
}

/** Runs a program and kills it after some time, unless it has ended; gives the signal that ended it. */
async function killedAfter(words: readonly string[], milliseconds: number) {
  const child = spawn(process.execPath, words, { stdio: 'ignore' });
  const ended = new Promise<NodeJS.Signals | null>((done) =>
    child.on('close', (_code, signal) => done(signal)),
  );
  await Promise.race([ended, setTimeout(milliseconds)]);
  child.kill('SIGKILL');
  return ended;
}

const home = mkdtempSync(join(tmpdir(), 'killed-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));

/** Writes an output of many files that all hold one word; with `dies` it kills itself between the two renames. */
const writer = (out: string, word: string, dies = false) => [
  '--input-type=module',
  '--eval',
  `import fs from 'node:fs';
   import { syncBuiltinESMExports } from 'node:module';
   if (${dies}) {
     const rename = fs.renameSync;
     fs.renameSync = (from, to) => { rename(from, to); process.kill(process.pid, 'SIGKILL'); };
     syncBuiltinESMExports();
   }
   const { openDraft } = await import('${root}dist/publish/output-folder.js');
   const { value } = openDraft('${out}');
   for (let i = 0; i < 200; i++) fs.writeFileSync(value.folder + '/' + i, '${word}');
   await value.publish();`,
];

/** The words that an output's files hold, and how many files there are. */
function wordsIn(out: string) {
  const files = readdirSync(out).filter((name) => !name.startsWith('.'));
  return {
    count: files.length,
    words: [...new Set(files.map((f) => readFileSync(join(out, f), 'utf8')))],
  };
}

describe('an output that is killed while it is written', () => {
  it('is the last one or the new one, whole, after 100 kills at any moment', async () => {
    const out = join(home, 'many', 'out');
    const random = randoms('writing');
    // The moments lie in what a whole run takes on this machine as it is loaded now, and a little beyond.
    const begun = performance.now();
    expect(spawnSync(process.execPath, writer(out, 'first')).status).toBe(0);
    const whole = performance.now() - begun;
    let last = 'first';
    let [killed, published] = [0, 0];
    for (let kill = 0; kill < 100; kill++) {
      const word = `word ${kill}`;
      if ((await killedAfter(writer(out, word), whole * (0.15 + 1.1 * random()))) === 'SIGKILL')
        killed++;
      if (!existsSync(out)) openDraft(out);
      const { count, words } = wordsIn(out);
      expect(count).toBe(200);
      expect(words).toHaveLength(1);
      expect([last, word]).toContain(words[0]);
      if (words[0] === word) published++;
      last = words[0] as string;
    }
    expect(killed).toBeGreaterThan(20);
    expect(published).toBeGreaterThan(0);
    expect(spawnSync(process.execPath, writer(out, 'end')).status).toBe(0);
    expect(wordsIn(out)).toEqual({ count: 200, words: ['end'] });
    expect(strays(join(home, 'many'))).toEqual([]);
  }, 120_000);

  it('comes back where the kill fell between the two renames', () => {
    const out = join(home, 'gap', 'out');
    expect(spawnSync(process.execPath, writer(out, 'first')).status).toBe(0);
    expect(spawnSync(process.execPath, writer(out, 'second', true)).signal).toBe('SIGKILL');
    expect(existsSync(out)).toBe(false);
    const opened = openDraft(out);
    expect(wordsIn(out)).toEqual({ count: 200, words: ['first'] });
    if (opened.ok) opened.value.discard();
    expect(strays(join(home, 'gap'))).toEqual([]);
  });

  it('leaves alone what stands beside it and is not its own', async () => {
    const out = join(home, 'beside', 'out');
    const own = [
      join(home, 'beside', '.thrice-notes'),
      join(home, 'beside', '.thrice-draft-out-mine'),
    ];
    for (const folder of own) mkdirSync(folder, { recursive: true });
    const opened = openDraft(out);
    if (opened.ok) await opened.value.publish();
    for (const folder of own) expect(existsSync(folder)).toBe(true);
  });
});

/** A long run sets this to 100; each of these kills a whole build. */
const KILLS = Number(process.env.THRICE_KILLS ?? 3);

describe('a build that is killed', () => {
  const clinic = new TestClinic('clover');
  const build = [program, 'build', clinic.folder, '--out', clinic.out];
  let whole: Record<string, string>;
  let duration = 0;
  beforeAll(() => {
    const begun = performance.now();
    expect(spawned(build.slice(1)).code).toBe(0);
    duration = performance.now() - begun;
    whole = bytesIn(clinic.out);
  }, 120_000);
  afterAll(() => clinic.remove());

  it(
    `leaves the last output and the records as they were, ${KILLS} times`,
    async () => {
      const records = bytesIn(clinic.folder);
      const random = randoms('building');
      for (let kill = 0; kill < KILLS; kill++) {
        await killedAfter(build, duration * 1.1 * random());
        expect(bytesIn(clinic.folder)).toEqual(records);
        if (existsSync(clinic.out)) expect(bytesIn(clinic.out)).toEqual(whole);
      }
      expect(spawned(build.slice(1)).code).toBe(0);
      expect(bytesIn(clinic.out)).toEqual(whole);
      expect(strays(clinic.home)).toEqual([]);
    },
    KILLS * 30_000 + 60_000,
  );

  it('and two at once leave one whole output', async () => {
    const codes = await Promise.all(
      [0, 1].map(
        () =>
          new Promise((done) =>
            spawn(process.execPath, build, { stdio: 'ignore' }).on('close', done),
          ),
      ),
    );
    expect(codes).toEqual([0, 0]);
    expect(bytesIn(clinic.out)).toEqual(whole);
    expect(strays(clinic.home)).toEqual([]);
  }, 120_000);

  it('for lack of room says so, and leaves the last output and nothing else', () => {
    // No file may grow beyond this many kilobytes: the pages fit, the pictures and prints do not.
    const { status, stderr } = spawnSync(
      'bash',
      ['-c', `ulimit -f 60; exec "$0" "$@"`, process.execPath, ...build, '--no-cache'],
      { encoding: 'utf8' },
    );
    expect(stderr).toContain(
      `${clinic.out}  [T803]\n  found     a file larger than may be written here (EFBIG)`,
    );
    expect(stderr).toContain('The last output stands as it was.');
    expect(status).toBe(1);
    expect(bytesIn(clinic.out)).toEqual(whole);
    expect(strays(clinic.home)).toEqual([]);
  });
});
