import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import { thrice } from '../cli/thrice.js';
import { TestClinic } from './clinic.js';

const clinic = new TestClinic('clover');
const RECORD = 'cases/clover/case.yaml';
const REMARKS = 'cases/clover/teaching.md';
const PAGE = 'public/a-patient-that-must-keep-eating/teaching.html';
afterAll(() => clinic.remove());
afterEach(() => clinic.restore('clover'));
const build = (...more: string[]) => thrice('build', clinic.folder, '--out', clinic.out, ...more);
/** The page with plain spaces: print keeps a month and its day together. */
const page = () => clinic.readOut(PAGE).replace(/\u00a0/g, ' ');
const isPublic = () => Object.keys(clinic.bytes()).includes(`out/${PAGE}`);
const SENTENCE = 'She came back on August 30 and ate.';
const doubtful = () => clinic.edit(REMARKS, 'A rabbit cannot', `${SENTENCE} A rabbit cannot`);
const decide = (decision: string) =>
  clinic.edit(
    RECORD,
    'teaching: teaching.md',
    `public passages:\n  - { passage: "${SENTENCE}", ${decision} }\nteaching: teaching.md`,
  );

describe('what a recorder calls the lead of a strip', () => {
  const named = new TestClinic('saffron');
  afterAll(() => named.remove());

  it('is free text, and no word of it reaches the public', async () => {
    named.edit('cases/saffron/strip.csv', 'time [s],II [mV]', 'time [s],II Bertha Quince [mV]');
    named.edit('cases/saffron/case.yaml', 'lead: II,', 'lead: II Bertha Quince,');
    const { code } = await thrice('build', named.folder, '--out', named.out);
    expect(code).toBe(0);
    for (const { parentPath, name } of readdirSync(join(named.out, 'public'), {
      recursive: true,
      withFileTypes: true,
    }).filter((entry) => entry.isFile())) {
      const bytes = readFileSync(join(parentPath, name), 'latin1');
      expect(bytes, name).not.toMatch(/Bertha|Quince/);
    }
  });
});

describe('a build', () => {
  it('replaces whole names of the case in free text and says how many', async () => {
    clinic.edit(REMARKS, 'A rabbit cannot', 'Linnea Marrowby fed Clover. A rabbit cannot');
    const { code, out } = await build();
    expect(code).toBe(0);
    expect(out).toContain('Reworded        clover: 2 names of the case');
    expect(page()).toContain('The owner fed the patient. A rabbit cannot');
  });

  it('keeps a case with a doubtful passage out of public, with its place, but makes its sheet', async () => {
    doubtful();
    const { code, out, err } = await build();
    expect(code).toBe(1);
    expect(out).toContain('Built 1 case: clover.');
    expect(err).toContain('Kept out of public: clover. Their discharge sheets were made.');
    expect(err).toContain(`${clinic.path(REMARKS)}:${clinic.lineOf(REMARKS, SENTENCE)}  [T610]\n`);
    expect(err).toContain(`  found     "August 30", which looks like a date, in "${SENTENCE}"`);
    expect(isPublic()).toBe(false);
    expect(Object.keys(clinic.bytes())).toContain('out/private/clover/discharge.html');
    const checked = await thrice('check', clinic.folder);
    expect(checked.code).toBe(1);
    expect(checked.out).not.toContain('No problem in clover');
    expect(checked.err).toContain('which looks like a date');
    expect((await build('--strict')).err).toContain('which looks like a date');
  });

  it('follows the decision of its author', async () => {
    doubtful();
    decide('decision: publish, because: no year and no place');
    expect((await build()).code).toBe(0);
    expect(page()).toContain(SENTENCE);
    clinic.edit(RECORD, /decision: publish, because: [^}]+/, 'decision: leave out ');
    expect((await build()).code).toBe(0);
    expect(page()).not.toContain('August 30');
  });

  it('asks again once the passage has changed, and for the reason of a decision to publish', async () => {
    doubtful();
    decide('decision: publish, because: no year and no place');
    clinic.edit(REMARKS, 'August 30', 'August 29');
    const { code, err } = await build();
    expect(code).toBe(1);
    expect(err).toContain('"August 29", which looks like a date');
    expect(err).toContain('which no public text says');
    expect(isPublic()).toBe(false);
    clinic.edit(RECORD, ', because: no year and no place', '');
    expect((await build()).err).toContain('publish, without a reason');
  });

  it('lets no decision publish an identifier of the case', async () => {
    clinic.edit(REMARKS, 'A rabbit cannot', 'Call 555 0100 now. A rabbit cannot');
    clinic.edit(
      RECORD,
      'teaching: teaching.md',
      'public passages:\n  - { passage: Call 555 0100 now., decision: publish, because: I like it }\nteaching: teaching.md',
    );
    const { code, err } = await build();
    expect(code).toBe(1);
    expect(err).toContain('found     the clinic\'s telephone number in "');
    expect(err).toContain('no decision can publish it');
    expect(isPublic()).toBe(false);
  });
});
