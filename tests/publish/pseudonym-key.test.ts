import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { KEY_VARIABLE, pseudonymHash, writeNewKey } from '../../src/publish/pseudonym-key.js';
import type { Clinic } from '../../src/record/clinic-schema.js';
import { thrice } from '../cli/thrice.js';
import { demo } from '../facts/demo.js';
import { clinicWith, problemsOf } from '../record/sample.js';
import { filesIn, TestClinic } from './clinic.js';

const home = mkdtempSync(join(tmpdir(), 'key-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));
const folder = join(home, 'clinic');
const out = join(home, 'out');
const dotted = join(folder, '..keys', 'a.key');
for (const one of [folder, out, join(folder, '..keys')]) mkdirSync(one);

const KEY = '8f2ab64c0d7e915b3c8aa1f09e6d4427b5c0133f7a2e98d6410bcf5e72a9d83e';
const DEMONSTRATION = demo.clinic.pseudonyms?.['demonstration key'] as string;
const sample = (pseudonyms: Clinic['pseudonyms']): Clinic => ({ ...clinicWith(), pseudonyms });
const hashOf = (clinic: Clinic, environment: Record<string, string> = {}) =>
  pseudonymHash({ clinic, clinicFile: join(folder, 'clinic.yaml'), out, environment });
const hex = (outcome: ReturnType<typeof hashOf>) =>
  outcome.ok ? Buffer.from(outcome.value('a', 'b')).toString('hex') : outcome.problems;

/** A file of a key, with its mode. */
function fileAt(path: string, mode = 0o600, key = KEY): Clinic {
  writeFileSync(path, `${key}\n`, { mode });
  chmodSync(path, mode);
  return sample({ 'key file': path });
}

describe('the key for pseudonyms', () => {
  it('is taken from a file of its owner alone, or from the environment, to the same hash', () => {
    const fromFile = hex(hashOf(fileAt(join(home, 'a.key'))));
    expect(fromFile).toMatch(/^[0-9a-f]{64}$/);
    expect(hex(hashOf(sample(undefined), { [KEY_VARIABLE]: KEY }))).toBe(fromFile);
    expect(hex(hashOf(sample({ 'key file': '~/a.key' }), { HOME: home }))).toBe(fromFile);
    expect(hex(hashOf(sample({ 'key file': '../a.key' })))).toBe(fromFile);
  });

  it('that is missing is asked for, with the way to make one', () => {
    const [problem] = problemsOf(hashOf(sample(undefined)));
    expect(problem).toMatchObject({ field: 'pseudonyms', found: 'no key for pseudonyms' });
    expect(problem?.mend).toContain('thrice key FILE');
    expect(problem?.mend).toContain(KEY_VARIABLE);
    expect(problemsOf(hashOf(sample({ 'key file': join(home, 'none') })))[0]?.mend).toContain(
      'thrice key FILE',
    );
  });

  it.each([
    ['words', 'seven blue buckets under the old stair'],
    ['too few digits', KEY.slice(0, 30)],
  ])('of %s is refused, wherever it stands, and not repeated in the message', (_, key) => {
    for (const outcome of [
      hashOf(sample(undefined), { [KEY_VARIABLE]: key }),
      hashOf(fileAt(join(home, 'weak.key'), 0o600, key)),
    ]) {
      const problems = problemsOf(outcome);
      expect(problems[0]?.expected).toContain('at least 128 bits');
      expect(JSON.stringify(problems)).not.toContain(key);
    }
  });

  it.skipIf(process.platform === 'win32').each([0o640, 0o604, 0o644, 0o660, 0o610])(
    'in a file of mode %o is refused',
    (mode) => {
      const [problem] = problemsOf(hashOf(fileAt(join(home, 'open.key'), mode)));
      expect(problem?.found).toContain(`mode ${mode.toString(8)}`);
      expect(problem?.mend).toContain('chmod 600');
    },
  );

  it.each([
    ['the folder of the clinic', join(folder, 'cases.key'), "the clinic's own folder"],
    ['a folder whose name begins with two dots', dotted, "the clinic's own folder"],
    ['the output', join(out, 'out.key'), 'the output'],
  ])('within %s is refused', (_, path, where) => {
    expect(problemsOf(hashOf(fileAt(path)))[0]?.found).toBe(`a key in ${where}`);
  });

  it('within any repository is refused', () => {
    mkdirSync(join(home, 'work', '.git'), { recursive: true });
    mkdirSync(join(home, 'work', 'deep'));
    const [problem] = problemsOf(hashOf(fileAt(join(home, 'work', 'deep', 'a.key'))));
    expect(problem?.found).toContain('a key in the repository');
  });

  it('of the demonstration serves the invented clinic and is refused at every other', () => {
    expect(hex(hashOf(demo.clinic))).toMatch(/^[0-9a-f]{64}$/);
    const outcomes = [
      hashOf(sample({ 'demonstration key': DEMONSTRATION })),
      hashOf(sample(undefined), { [KEY_VARIABLE]: DEMONSTRATION.toUpperCase() }),
      hashOf(fileAt(join(home, 'demo.key'), 0o600, DEMONSTRATION)),
    ];
    for (const outcome of outcomes) {
      expect(problemsOf(outcome)[0]?.found).toContain('demonstration key');
    }
    // A key of one's own has no place in clinic.yaml either.
    expect(problemsOf(hashOf(sample({ 'demonstration key': KEY })))).toHaveLength(1);
  });
});

describe('thrice key', () => {
  it('writes a new key of 256 bits for its owner alone, and never replaces one', async () => {
    const file = join(home, 'new.key');
    expect((await thrice('key', file)).code).toBe(0);
    const key = readFileSync(file, 'utf8').trim();
    expect(key).toMatch(/^[0-9a-f]{64}$/);
    if (process.platform !== 'win32') expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(hex(hashOf(sample({ 'key file': file })))).toMatch(/^[0-9a-f]{64}$/);
    const again = await thrice('key', file);
    expect(again.code).toBe(1);
    expect(again.err).toContain('a file that is there already');
    expect(readFileSync(file, 'utf8').trim()).toBe(key);
    expect(writeNewKey(join(home, 'none', 'x')).ok).toBe(false);
  });
});

describe('a build', () => {
  const clinic = new TestClinic('clover');
  afterAll(() => clinic.remove());
  const page = 'public/a-patient-that-must-keep-eating/teaching.html';
  const named = () => /<dd[^>]*>([0-9a-z]{18})<\/dd>/.exec(clinic.readOut(page))?.[1];

  it('gives a case the same pseudonym each time, another under another key, and tells no key', async () => {
    const build = () => thrice('build', clinic.folder, '--out', clinic.out);
    expect((await build()).code).toBe(0);
    const first = named();
    expect(first).toMatch(/^([a-hjkmnp-tv-z]{2}[0-9]){6}$/);
    cpSync(clinic.out, join(home, 'kept'), { recursive: true });
    process.env[KEY_VARIABLE] = KEY;
    try {
      expect((await build()).code).toBe(0);
    } finally {
      delete process.env[KEY_VARIABLE];
    }
    expect(named()).not.toBe(first);
    for (const path of filesIn(clinic.out)) {
      expect(readFileSync(path).includes(KEY), path).toBe(false);
    }
    expect((await build()).code).toBe(0);
    expect(named()).toBe(first);
  });

  it('publishes nothing and leaves the last output without a key', async () => {
    clinic.edit('clinic.yaml', /pseudonyms:\n.*\n/, '');
    const before = clinic.bytes();
    const { code, err } = await thrice('build', clinic.folder, '--out', clinic.out);
    expect(code).toBe(1);
    expect(err).toContain('no key for pseudonyms');
    expect(clinic.bytes()).toEqual(before);
    expect(existsSync(join(clinic.out, page))).toBe(true);
  });
});
