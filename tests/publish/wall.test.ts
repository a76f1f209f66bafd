import { readdirSync, readFileSync, rmSync, statSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { thrice } from '../cli/thrice.js';
import { strays, TestClinic } from './clinic.js';

/** Lets one test make the page writer fail as a bug in it would. */
const pages = vi.hoisted(() => ({ fail: false }));
vi.mock('../../src/publish/html/write-pages.js', async (original) => {
  const real = await original<typeof import('../../src/publish/html/write-pages.js')>();
  return {
    writePages: (...given: Parameters<typeof real.writePages>) => {
      if (pages.fail) throw new Error('the pages could not be written');
      return real.writePages(...given);
    },
  };
});

const RECORD = 'cases/clover/case.yaml';
const REMARKS = 'cases/clover/teaching.md';
const OWNED = /the owner's name in/;
const ADDRESS = 'public/a-patient-that-must-keep-eating';

let clinic: TestClinic;
const build = (...words: string[]) => thrice('build', clinic.folder, '--out', clinic.out, ...words);

beforeAll(async () => {
  clinic = new TestClinic('clover');
  expect((await build()).code).toBe(0);
}, 60_000);
afterAll(() => clinic.remove());
afterEach(() => {
  pages.fail = false;
  clinic.restore('clover');
});

/** Where an author may write a name, and how the public file is called in which it would stand. */
const PLANTS: readonly [where: string, plant: (name: string) => void, file: string][] = [
  [
    'the remarks',
    (name) => clinic.edit(REMARKS, 'A rabbit cannot', `Mrs. ${name} asked. A rabbit cannot`),
    `${ADDRESS}/teaching.html`,
  ],
  [
    'the note of an event',
    (name) =>
      clinic.edit(
        RECORD,
        'at: 09:04, what: tissue removed',
        `at: 09:04, what: tissue removed, note: as Ms. ${name} wished`,
      ),
    `${ADDRESS}/teaching.pdf`,
  ],
  [
    'the reason for a sensor that was off the patient',
    (name) =>
      clinic.edit(
        RECORD,
        '  strips:',
        `  off patient:\n    - { channel: SpO2, to: 08:50, why: ${name.toUpperCase()} bit the cable }\n  strips:`,
      ),
    `${ADDRESS}/teaching.html`,
  ],
  [
    'the public title',
    (name) => clinic.edit(RECORD, 'title: A patient', `title: ${name.replace('a', 'á')}’s patient`),
    'public/index.html',
  ],
  [
    'the public address',
    (name) => clinic.edit(RECORD, 'address: a-patient', `address: ${name.toLowerCase()}-patient`),
    'public/ashgrove-patient-that-must-keep-eating/teaching.html',
  ],
];

describe('a case stays out of public, with the place in its files, when its author writes a name of it in', () => {
  it.each(PLANTS)('%s', async (where, plant) => {
    plant('Marrowby');
    const { code, out, err } = await build();
    expect(code).toBe(1);
    expect(out).toContain('Built 1 case: clover.');
    expect(err).toContain('Kept out of public: clover.');
    const file = clinic.path(where === 'the remarks' ? REMARKS : RECORD);
    const own = err.split(/\n(?=\/)/).find((one) => one.startsWith(file) && OWNED.test(one));
    expect(own).toContain('expected  no identifier of the case in a text for the public');
    expect(own).toContain('no decision can publish it');
    expect(Object.keys(clinic.bytes()).filter((path) => path.includes('keep-eating'))).toEqual([]);
  });
});

describe('a build refuses to publish, naming the public file, when a name of another case stands in', () => {
  const RUINED = 'cases/ashgrove/case.yaml';
  beforeAll(() => {
    // A case that cannot be read: its owner is known, its documents are not made.
    clinic.adopt(clinic.path('cases', 'clover'), 'ashgrove');
    clinic.edit(RUINED, 'name: Linnea Marrowby', 'name: Tib Ashgrove');
    clinic.edit(RUINED, /weight: .*/, 'weight: a handful');
  });
  afterAll(() => rmSync(clinic.path('cases', 'ashgrove'), { recursive: true }));

  it.each(PLANTS)('%s', async (_, plant, file) => {
    plant('Ashgrove');
    const decided = ['Mrs. Ashgrove asked.', 'as Ms. Ashgrove wished'].filter((passage) =>
      [RECORD, REMARKS].some((one) => readFileSync(clinic.path(one), 'utf8').includes(passage)),
    );
    const decisions = decided.map(
      (passage) => `  - { passage: ${passage}, decision: publish, because: a name as any other }`,
    );
    clinic.edit(
      RECORD,
      'teaching: teaching.md',
      `public passages:\n${decisions.join('\n') || '  []'}\nteaching: teaching.md`,
    );
    const before = clinic.bytes();
    const { code, out, err } = await build();
    expect({ code, out }).toEqual({ code: 1, out: '' });
    const own = err
      .split(/\n(?=public\/)/)
      .find((problem) => problem.startsWith(file) && OWNED.test(problem));
    expect(own).toContain('expected  no identifier of any case in a public file');
    expect(own).toContain('to mend   Reword');
    expect(clinic.bytes()).toEqual(before);
    expect(strays(clinic.home)).toEqual([]);
  });
});

it('leaves the last output and no temporary folder when the pages cannot be written', async () => {
  pages.fail = true;
  const before = clinic.bytes();
  await expect(build('--no-cache')).rejects.toThrow('the pages could not be written');
  expect(clinic.bytes()).toEqual(before);
  expect(strays(clinic.home)).toEqual([]);
});

it('takes a case out of public once its owner withdraws consent, and says which pages went', async () => {
  expect((await build()).code).toBe(0);
  clinic.edit(RECORD, 'on: 2026-05-05 }', 'on: 2026-05-05, withdrawn: 2026-06-01 }');
  const { code, out } = await build();
  expect(code).toBe(0);
  expect(out.split('\n').filter((line) => line.startsWith('No longer'))).toEqual([
    'No longer public  a-patient-that-must-keep-eating/teaching.html: consent to it was withdrawn on 2026-06-01',
  ]);
  const after = Object.keys(clinic.bytes());
  expect(after.filter((path) => path.includes('must-keep-eating'))).toEqual([]);
  expect(after).toContain(join('out', 'private', 'clover', 'discharge.html'));
});

it('prints questions of the audience only while their own consent stands', async () => {
  const asked = 'Is 214 beats a minute normal?';
  expect((await build()).code).toBe(0);
  expect(clinic.readOut(`${ADDRESS}/teaching.html`)).toContain(asked);
  clinic.edit(RECORD, /(questions: \{.*) \}/, '$1, withdrawn: 2026-06-02 }');
  const { code, out } = await build();
  expect(code).toBe(0);
  const gone = out.split('\n').filter((line) => line.startsWith('No longer'));
  expect(gone).toHaveLength(5);
  expect(gone).toContain(
    'No longer public  a-patient-that-must-keep-eating/teaching.html#is-214-beats-a-minute-normal: consent to it was withdrawn on 2026-06-02',
  );
  expect(clinic.readOut(`${ADDRESS}/teaching.html`)).not.toContain(asked);
});

it('searches for the name of whoever gave consent', async () => {
  clinic.edit(
    RECORD,
    /teaching: \{ given: yes, by: [^,]+/,
    'teaching: { given: yes, by: Tib Ashgrove',
  );
  clinic.edit(
    'cases/clover/teaching.md',
    'A rabbit cannot',
    'As Ms. Ashgrove asked: a rabbit cannot',
  );
  const { code, err } = await build();
  expect(code).toBe(1);
  expect(err).toContain('found     the name of one who signed in "');
});

it('tells of no public file when it was first made', async () => {
  expect((await build()).code).toBe(0);
  // As if it had been made on the day after surgery, and kept since.
  const then = new Date('2026-05-06T18:00:00Z');
  const tree = join(clinic.out, 'public');
  const times = () =>
    ['', ...readdirSync(tree, { encoding: 'utf8', recursive: true })].map(
      (path) => statSync(join(tree, path)).mtimeMs,
    );
  for (const path of readdirSync(tree, { encoding: 'utf8', recursive: true })) {
    utimesSync(join(tree, path), then, then);
  }
  expect((await build()).out).toContain('Printed anew    0 of 1');
  expect(new Set(times()).size).toBe(1);
  expect(times()[0]).toBeGreaterThan(then.getTime());
});

it('writes names with marks of HTML, links and paths as they are', async () => {
  const folder = `Mia & Leo's #2 100%`;
  const other = new TestClinic();
  try {
    clinic.edit(RECORD, 'name: Clover', `name: "Mia & O'Leo <b>"`);
    clinic.edit(RECORD, 'title: A patient', `title: The "gut" & a rabbit's patient`);
    other.adopt(clinic.path('cases', 'clover'), folder);
    expect((await thrice('build', other.folder, '--out', other.out)).code).toBe(0);
    const files = Object.keys(other.bytes()).filter((path) => path.startsWith('out/private/Mia'));
    expect(files.filter((path) => path.includes('.'))).toEqual([
      `out/private/${folder}/chart.pdf`,
      `out/private/${folder}/discharge.html`,
      `out/private/${folder}/discharge.ics`,
      `out/private/${folder}/discharge.pdf`,
    ]);
    const title = (path: string) => /<title>(.*)<\/title>/.exec(other.readOut(path))?.[1];
    expect(title(`private/${folder}/discharge.html`)).toBe(
      'Home care for Mia &amp; O&#39;Leo &lt;b&gt;',
    );
    expect(title(`${ADDRESS}/teaching.html`)).toMatch(/^The &quot;gut&quot; &amp; a rabbit&#39;s/);
    const links = [...other.readOut('private/index.html').matchAll(/ ?<a href="((?!#)[^"]+)"/g)];
    expect(
      links.map(([, link]) => decodeURIComponent((link as string).replace('&#39;', "'"))),
    ).toEqual([
      `${folder}/discharge.html`,
      `${folder}/discharge.pdf`,
      `${folder}/discharge.ics`,
      `${folder}/chart.pdf`,
    ]);
  } finally {
    other.remove();
  }
});
