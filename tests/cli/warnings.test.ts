import { rmSync } from 'node:fs';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { TestClinic } from '../publish/clinic.js';
import { thrice } from './thrice.js';

const RECORD = 'cases/clover/case.yaml';
const clinic = new TestClinic('clover');
afterAll(() => clinic.remove());
beforeEach(() => {
  clinic.restoreClinic();
  clinic.restore('clover');
});

/** 0.29 mg/kg, under the 0.3 of the formulary. */
const giveLess = () => clinic.edit(RECORD, 'give: 1 mL', 'give: 0.4 mL');
const accept = () =>
  clinic.edit(RECORD, 'dispensed: 5 mL', 'dispensed: 5 mL\n      accepted because: old kidneys');
/** What check says of the reading level of the sheet. */
const GRADE =
  /clover, owner's sheet \(en\): Flesch-Kincaid grade [\d.]+ \(6 or below\), SMOG grade [\d.]+ \(6 or below\); \d+ sentences\.$/;
const check = (...more: string[]) => thrice('check', clinic.folder, ...more);

describe('a warning', () => {
  it('is shown by check at its place, with exit code 0', async () => {
    giveLess();
    const { code, out, err } = await check();
    expect(code).toBe(0);
    expect(out).toMatch(/^No problem in clover\.\n/);
    expect(out).toMatch(GRADE);
    const line = clinic.lineOf(RECORD, 'give: 0.4 mL');
    expect(err).toBe(
      [
        `Warning: ${clinic.path(RECORD)}:${line}:7  home.medicines[0].give  [T332]`,
        `  ${line}        give: 0.4 mL`,
        `  ${' '.repeat(`${line}`.length + 2 + 6)}${'¯'.repeat('give: 0.4 mL'.length)}`,
        '  found     0.286 mg/kg of meloxicam at one time',
        '  expected  0.3 to 1 mg/kg, as the formulary says',
        '  to mend   Mend it, or write "accepted because:" with the reason in this medicine.',
        '1 warning, 1 not accepted.',
      ].join('\n'),
    );
  });

  it('fails a strict check until the record accepts it', async () => {
    giveLess();
    expect((await check('--strict')).code).toBe(1);
    accept();
    const { code, err } = await check('--strict');
    expect(code).toBe(0);
    expect(err).toContain('  accepted  old kidneys\n1 warning, all accepted.');
    expect(err).not.toContain('to mend');
  });

  it('stands among the facts with its answer', async () => {
    giveLess();
    accept();
    const { out } = await thrice('facts', clinic.path('cases/clover'), '--json');
    expect(JSON.parse(out)).toMatchObject({
      warnings: [{ field: 'home.medicines[0].give', accepted: 'old kidneys' }],
    });
  });

  it('is shown by a build, and stops a strict one without changing anything', async () => {
    giveLess();
    const before = clinic.bytes();
    const strict = await thrice('build', clinic.folder, '--out', clinic.out, '--strict');
    expect(strict.code).toBe(1);
    expect(strict.err).toContain('0.286 mg/kg of meloxicam');
    expect(clinic.bytes()).toEqual(before);
    const { code, err } = await thrice('build', clinic.folder, '--out', clinic.out);
    expect(code).toBe(0);
    expect(err).toContain('Warning: ');
  }, 60_000);

  it('is never a ban or too much in a day, whatever the record says', async () => {
    clinic.edit(RECORD, 'give: 1 mL', 'give: 1.5 mL');
    clinic.edit(RECORD, 'dispensed: 5 mL', 'dispensed: 9 mL\n      accepted because: I say so');
    const { code, err } = await check();
    expect(code).toBe(1);
    expect(err).toContain('at most 1 mg/kg a day');
  });

  it('comes with a clash between clinic and home', async () => {
    clinic.edit(RECORD, 'drug: meloxicam, dose', 'drug: carprofen, dose');
    expect((await check()).err).toContain('meloxicam within 24 h of carprofen in the clinic');
  });
});

describe('a dose that nothing was compared with', () => {
  it('is named where the formulary has no row', async () => {
    clinic.edit(RECORD, 'drug: meloxicam\n', 'drug: meloxicamm\n');
    expect((await check()).out).toContain(
      'No problem in clover.\nclover, meloxicamm. Not checked: the formulary has no row for meloxicamm; did you mean "meloxicam"?',
    );
  });

  it('is named where the clinic keeps no formulary', async () => {
    rmSync(clinic.path('formulary.yaml'));
    const { code, out } = await check('--strict');
    expect(code).toBe(0);
    expect(out).toContain(
      'No problem in clover.\nclover, meloxicam. Not checked: the clinic has no formulary.yaml.',
    );
  });
});

it('a formulary with a slip says where, and nothing is read against it', async () => {
  clinic.edit('formulary.yaml', 'dose: 0.3-1 mg/kg', 'dose: 0.3-1 mg');
  const { code, out, err } = await check();
  expect({ code, out }).toEqual({ code: 1, out: '' });
  expect(err).toMatch(/formulary\.yaml:\d+:\d+ {2}drugs\[0\]\.species\.rabbit\.dose/);
});
