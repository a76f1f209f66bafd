import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { build } from '../../src/publish/build.js';
import { disk } from '../../src/publish/disk.js';
import { demoSite } from '../demo-site.js';
import { accepted } from '../record/sample.js';
import { TestClinic } from './clinic.js';
import { pageText } from './pdf-text.js';

/** Text of each row of the clinic's own list, the head first. */
const rowsOf = (html: string): string[] =>
  [...html.matchAll(/<tr[\s\S]*?<\/tr>/g)].map(([row]) =>
    pageText(row).replace(/\s+/g, ' ').trim(),
  );

describe("the clinic's own list", () => {
  let site = '';
  let html = '';
  beforeAll(async () => {
    site = join(await demoSite(), 'private');
    html = readFileSync(join(site, 'index.html'), 'utf8');
  }, 120_000);

  it('has a row a patient, the newest surgery first, with owner, record, procedure, day, state and language', () => {
    const [, ...rows] = rowsOf(html);
    expect(rows).toHaveLength(6);
    expect(rows.map((row) => row.split(' ')[0])).toEqual([
      ...['Clover', 'Tucker', 'Pumpernickel', 'Bramble', 'Juniper', 'Saffron'],
    ]);
    expect(rows[2]).toMatch(
      /^Pumpernickel ?Rosaura Valdecampo 2026-0158 wound cleaning, left open 2026-04-02 draft ?no open warning page PDF calendar ?in Spanish chart answers$/,
    );
  });

  it('leads to each document of a case, the answers among them, and to nothing that is not there', () => {
    const links = [...html.matchAll(/<a href="((?!#)[^"]+)"/g)].map(([, link]) => link as string);
    for (const link of links) expect(existsSync(join(site, link)), link).toBe(true);
    for (const end of ['.html', '.pdf', '.ics']) expect(links).toContain(`juniper/discharge${end}`);
    expect(links).toContain('juniper/chart.pdf');
    expect(links).toContain('juniper/answers.txt');
    // Clover's owner did not allow the record that the questions go with.
    expect(links).not.toContain('clover/answers.txt');
  });
});

it('counts the warnings that nobody has answered, until the record does', async () => {
  const clinic = new TestClinic('clover');
  const state = async () => {
    accepted(
      await build(
        { cases: clinic.folder, out: clinic.out, strict: false },
        disk(() => undefined),
      ),
    );
    return rowsOf(readFileSync(join(clinic.out, 'private/index.html'), 'utf8'))[1];
  };
  try {
    clinic.edit('cases/clover/case.yaml', 'sex: female', 'sex: male');
    expect(await state()).toContain('1 open warning page');
    clinic.edit('cases/clover/case.yaml', 'rest: 10 days', 'rest: 3 days');
    expect(await state()).toContain('2 open warnings page');
    clinic.edit(
      'cases/clover/case.yaml',
      'sex: male',
      'sex: male\n  accepted because: { T315: as it is }',
    );
    expect(await state()).toContain('1 open warning page');
  } finally {
    clinic.remove();
  }
}, 120_000);
