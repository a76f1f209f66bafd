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
const accept = (number: string) =>
  clinic.edit(
    RECORD,
    'dispensed: 5 mL',
    `dispensed: 5 mL\n      accepted because: { ${number}: old kidneys }`,
  );
/** What check says of the reading level of the sheet. */
const GRADE =
  /clover, owner's sheet \(en\): Flesch-Kincaid grade [\d.]+ \(6 or below\), SMOG grade [\d.]+ \(6 or below\); \d+ sentences\.$/;
const check = (...more: string[]) => thrice('check', clinic.folder, ...more);

describe('a warning', () => {
  it('is shown by check at its place, with exit code 0', async () => {
    giveLess();
    const { code, out, err } = await check();
    expect(code).toBe(0);
    expect(out).toMatch(/^No problem, but warnings to answer, in clover\.\n/);
    expect(out).toMatch(GRADE);
    const line = clinic.lineOf(RECORD, 'give: 0.4 mL');
    expect(err).toBe(
      [
        `Warning: ${clinic.path(RECORD)}:${line}:7  home.medicines[0].give  [T332]`,
        `  ${line}        give: 0.4 mL`,
        `  ${' '.repeat(`${line}`.length + 2 + 6)}${'¯'.repeat('give: 0.4 mL'.length)}`,
        '  found     0.286 mg/kg of meloxicam at one time',
        '  expected  0.3 to 1 mg/kg, as the formulary says',
        '  to mend   Mend it, or write in this medicine: accepted because: { T332: "the reason" }.',
        '1 warning, 1 not accepted.',
      ].join('\n'),
    );
  });

  it('fails a strict check until the record accepts it', async () => {
    giveLess();
    expect((await check('--strict')).code).toBe(1);
    accept('T332');
    const { code, err } = await check('--strict');
    expect(code).toBe(0);
    expect(err).toContain('  accepted  old kidneys\n1 warning, all accepted.');
    expect(err).not.toContain('to mend');
  });

  it('is not answered by what the record says of another warning about the same medicine', async () => {
    giveLess();
    accept('T332');
    expect((await check('--strict')).code).toBe(0);
    clinic.edit(RECORD, 'every: 24 h', 'every: 48 h');
    const { code, err } = await check('--strict');
    expect(code).toBe(1);
    expect(err).toContain('accepted  old kidneys');
    expect(err).toContain('T333: "the reason"');
    expect(err).toContain('2 warnings, 1 not accepted.');
  });

  it('is answered under its number alone, and a reason without one says how to mend it', async () => {
    const because = (answer: string) => {
      clinic.restore('clover');
      clinic.edit(RECORD, 'dispensed: 5 mL', `dispensed: 5 mL\n      accepted because: ${answer}`);
      return check();
    };
    const { code, err } = await because('old kidneys');
    expect(code).toBe(1);
    expect(err).toContain('home.medicines[0].accepted because  [T207]');
    expect(err).toContain('  found     "old kidneys"\n');
    expect(err).toContain('each reason after the number of its warning: { T332: "the reason" }');
    expect(err).toContain('Write { T332: "old kidneys" } with the number of the warning');
    expect((await because('{ 332: old kidneys }')).err).toContain(
      'expected  the number of a warning, such as T332',
    );
    expect((await because('{ T332: old kidneys, seen in March }')).err).toContain(
      'put quotes around a text that holds one, "old kidneys, seen in March"',
    );
    expect((await because('{ T332: "" }')).err).toContain('[T213]');
  });

  it('stands among the facts with its answer', async () => {
    giveLess();
    accept('T332');
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
    clinic.edit(
      RECORD,
      'dispensed: 5 mL',
      'dispensed: 9 mL\n      accepted because: { T331: I say so, T332: I say so }',
    );
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
    const { code, out, err } = await check('--strict');
    expect(code).toBe(1);
    expect(out).toMatch(/^No problem, but warnings to answer, in clover\.\n/);
    expect(err).toContain('[T336]');
    expect(err).toContain('a row to check it against; the formulary has no row for meloxicamm');
    expect(err).toContain('If meloxicam is meant, mend the name.');
  });

  it('is named for a species that the formulary says nothing of, and nobody approves it unanswered', async () => {
    clinic.edit(RECORD, 'drug: meloxicam\n', 'drug: acetaminophen\n');
    const folder = clinic.path('cases/clover');
    const refused = await thrice('approve', folder, '--by', 'Dr. Ada Birch', '--on', '2026-05-05');
    expect(refused.code).toBe(1);
    expect(refused.err).toContain('not whether a rabbit may have it, not its dose');
    accept('T336');
    expect((await check('--strict')).code).toBe(0);
    const approved = await thrice('approve', folder, '--by', 'Dr. Ada Birch', '--on', '2026-05-05');
    expect(approved.code).toBe(0);
    rmSync(clinic.path('cases/clover/approval.yaml'));
  });

  it('is named where the clinic keeps no formulary', async () => {
    rmSync(clinic.path('formulary.yaml'));
    const { code, err } = await check('--strict');
    expect(code).toBe(1);
    expect(err).toContain('a row to check it against; the clinic has no formulary.yaml');
  });

  it('is named without a warning where it was given in the clinic', async () => {
    const { code, out } = await check('--strict');
    expect(code).toBe(0);
    expect(out).toContain(
      'No problem in clover.\nclover, given in the clinic, not checked: buprenorphine 0.029 mg/kg intramuscular, midazolam 0.476 mg/kg intramuscular, alfaxalone 2.381 mg/kg intravenous.',
    );
  });
});

describe('a dose in the clinic out of the range of its row', () => {
  it('is a warning that the drug answers', async () => {
    clinic.edit(RECORD, 'dose: 4.2 mg, route', 'dose: 42 mg, route');
    const { code, err } = await check('--strict');
    expect(code).toBe(1);
    expect(err).toContain('anesthesia.drugs[3].dose  [T332]');
    expect(err).toContain('  found     20 mg/kg of lidocaine, infiltration\n');
    clinic.edit(
      RECORD,
      'dose: 42 mg, route: infiltration',
      'dose: 42 mg, accepted because: { T332: weighed twice }, route: infiltration',
    );
    expect((await check('--strict')).code).toBe(0);
  });
});

describe('all that is wrong with a medicine', () => {
  it('is told at once, an overdose behind too little handed out included', async () => {
    clinic.edit(RECORD, 'give: 1 mL', 'give: 2 mL');
    const { err } = await check();
    expect(err).toContain('  expected  at least 8 mL for 4 doses of 2 mL\n');
    expect(err).toContain('  found     1.429 mg/kg of meloxicam within 24 h\n');
    expect(err).toMatch(/\n2 problems\.$/);
  });

  it('is told at once, an overdose that cannot be measured included', async () => {
    clinic.edit(RECORD, /give: 1 mL([\s\S]*)dispensed: 5 mL/, 'give: 2.05 mL$1dispensed: 9 mL');
    const { err } = await check();
    expect(err).toMatch(/\[T324\][\s\S]*\[T331\]/);
  });
});

it('a formulary with a slip says where, and nothing is read against it', async () => {
  clinic.edit('formulary.yaml', 'dose: 0.3-1 mg/kg', 'dose: 0.3-1 mg');
  const { code, out, err } = await check();
  expect({ code, out }).toEqual({ code: 1, out: '' });
  expect(err).toMatch(/formulary\.yaml:\d+:\d+ {2}drugs\[0\]\.species\.rabbit\.dose/);
});
