import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recordJsonSchema } from '../../src/publish/pack/record-schema.js';
import { thrice } from '../cli/thrice.js';
import { TestClinic } from './clinic.js';

const ADDRESS = 'when-a-tie-slips';
const RECORD = 'cases/saffron/case.yaml';
let clinic: TestClinic;

/** The cat of the demonstration as if it had died on the table. */
beforeAll(async () => {
  clinic = new TestClinic('saffron');
  clinic.edit(RECORD, /^ {2}discharge: .*\n {2}note to owner: .*\n/m, '');
  clinic.edit(RECORD, /^closure:[\s\S]*(?=^consent:)/m, '');
  clinic.edit(RECORD, '  end: 10:46\n', '');
  clinic.edit(RECORD, 'end: 11:00', 'end: 10:50');
  clinic.edit(
    RECORD,
    /^ {2}- \{ at: 10:46[^\n]*\n[^\n]*\n/m,
    '  - { at: 10:50, what: death, note: Saffron bled again }\n',
  );
});
afterAll(() => clinic.remove());

const build = () => thrice('build', clinic.folder, '--out', clinic.out);

describe('the case of a patient that died', () => {
  it('passes the check, which says that there is no sheet', async () => {
    const said = await thrice('check', clinic.folder);
    expect(said).toMatchObject({ code: 0, err: '' });
    expect(said.out).toContain("saffron: no owner's sheet, as the patient died.");
  });

  it('tells of no dose and no day at home what is to be checked by eye', async () => {
    const { code, out } = await thrice('facts', clinic.path('cases', 'saffron'));
    expect(code).toBe(0);
    expect(out).toContain('died at Fri 2026-03-06 10:50');
    expect(out).not.toMatch(/Medicines for home|Days/);
  });

  it('gives the owner no sheet, calendar or chart, and the learners their pages', async () => {
    expect(await build()).toMatchObject({ code: 0, err: '' });
    expect(readdirSync(join(clinic.out, 'private', 'saffron'))).toEqual(['answers.txt']);
    expect(clinic.readOut('private/index.html')).toContain('none: the patient died');
    expect(existsSync(join(clinic.out, 'calendars'))).toBe(false);
    for (const page of ['teaching', 'record']) {
      const text = clinic.readOut(`public/${ADDRESS}/${page}.html`);
      expect(text).toContain('<strong>The patient died under anesthesia</strong>, in minute 75.');
      expect(text).toContain('Of the death the record says: “The patient bled again”.');
      expect(text).not.toMatch(/Saffron|suture|stitch/i);
    }
    const record = JSON.parse(clinic.readOut(`public/${ADDRESS}/record.json`));
    const isRecord = new Ajv2020({ strict: false }).compile(recordJsonSchema());
    expect(isRecord(record), JSON.stringify(isRecord.errors)).toBe(true);
    expect(record.dates.died).toMatch(/T10:50$/);
  });

  it('loses its draft mark with an approval, and gets it back with a change', async () => {
    const approve = ['approve', clinic.path('cases', 'saffron'), '--by', 'Dr. Teodor Vantongeren'];
    const said = await thrice(...approve, '--on', '2026-03-07');
    expect(said).toMatchObject({ code: 0, err: '' });
    expect(said.out).toContain(
      'from the next build on: the teaching page with its answers, the anonymized record.',
    );
    await build();
    const page = `public/${ADDRESS}/teaching.html`;
    expect(clinic.readOut(page)).not.toContain('Not yet checked by a veterinarian');
    clinic.edit(RECORD, 'Saffron bled again', 'Saffron bled once more');
    await build();
    expect(clinic.readOut(page)).toContain('Not yet checked by a veterinarian');
    const again = await thrice(...approve, '--on', '2026-03-08');
    expect(again).toMatchObject({ code: 0 });
    expect(again.out).not.toContain('The sheet names what is new');
  });

  it('is told to nobody without consent', async () => {
    clinic.edit(RECORD, /(teaching|record): \{ given: yes[^}]*\}/g, '$1: { given: no }');
    expect(await build()).toMatchObject({ code: 0 });
    expect(existsSync(join(clinic.out, 'public', ADDRESS))).toBe(false);
    expect(existsSync(join(clinic.out, 'private', 'saffron'))).toBe(false);
  });
});
