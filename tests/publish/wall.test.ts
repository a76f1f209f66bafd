import { rmSync } from 'node:fs';
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

describe('a build refuses to publish, naming the public file, when an identifier stands in', () => {
  const plants: readonly [where: string, plant: () => void, what: RegExp, file: string][] = [
    [
      'the remarks',
      () =>
        clinic.edit(
          'cases/clover/teaching.md',
          'A rabbit cannot',
          'Mrs. Marrowby, a rabbit cannot',
        ),
      /the owner's name in/,
      `${ADDRESS}/teaching.html`,
    ],
    [
      'the note of an event',
      () =>
        clinic.edit(
          RECORD,
          'at: 09:04, what: tissue removed',
          'at: 09:04, what: tissue removed, note: as Ms. Linnea Marrowby wished',
        ),
      /the owner's name in/,
      `${ADDRESS}/teaching.pdf`,
    ],
    [
      'the reason for a sensor that was off the patient',
      () =>
        clinic.edit(
          RECORD,
          '  strips:',
          '  off patient:\n    - { channel: SpO2, to: 08:50, why: CLOVER bit the cable }\n  strips:',
        ),
      /the patient's name in/,
      `${ADDRESS}/teaching.html`,
    ],
    [
      'the public title',
      () => clinic.edit(RECORD, 'title: A patient', 'title: Línnea’s patient'),
      /the owner's name in/,
      'public/index.html',
    ],
    [
      'the public address',
      () => clinic.edit(RECORD, 'address: a-patient', 'address: marrowby-patient'),
      /the owner's name in/,
      'public/marrowby-patient-that-must-keep-eating/teaching.html',
    ],
  ];

  it.each(plants)('%s', async (_, plant, what, file) => {
    plant();
    const before = clinic.bytes();
    const { code, out, err } = await build();
    expect({ code, out }).toEqual({ code: 1, out: '' });
    const own = err
      .split(/\n(?=public\/)/)
      .find((problem) => problem.startsWith(file) && what.test(problem));
    expect(own).toMatch(what);
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
  clinic.edit(RECORD, /questions: .*/, 'questions: { given: no }');
  expect((await build()).code).toBe(0);
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
  expect(err).toContain('the name of one who signed');
});

it('searches for the people of a record that cannot be read', async () => {
  const RUINED = 'cases/ashgrove/case.yaml';
  clinic.adopt(clinic.path('cases', 'clover'), 'ashgrove');
  try {
    clinic.edit(RUINED, 'name: Linnea Marrowby', 'name: Tib Ashgrove');
    clinic.edit(RUINED, /weight: .*/, 'weight: a handful');
    clinic.edit(
      'cases/clover/teaching.md',
      'A rabbit cannot',
      'As Ms. Ashgrove asked: a rabbit cannot',
    );
    const { code, err } = await build();
    expect(code).toBe(1);
    expect(err).toMatch(/teaching\.html[\s\S]*the owner's name in[\s\S]*Ashgrove/);
  } finally {
    rmSync(clinic.path('cases', 'ashgrove'), { recursive: true });
  }
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
    const links = [...other.readOut('private/index.html').matchAll(/<td><a href="([^"]+)"/g)];
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
