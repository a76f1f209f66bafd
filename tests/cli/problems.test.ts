import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { TestClinic } from '../publish/clinic.js';
import { thrice } from './thrice.js';

const clinic = new TestClinic('clover');
const RECORD = 'cases/clover/case.yaml';
beforeEach(() => clinic.restore('clover'));
afterAll(() => clinic.remove());
const check = (...more: string[]) => thrice('check', clinic.folder, ...more);

describe('a problem on the terminal', () => {
  it('shows its line, what is meant underlined, without the remark behind it', async () => {
    clinic.edit(RECORD, 'weight: 2.1 kg', 'weight: 2.1 # as of today');
    const line = clinic.lineOf(RECORD, 'weight: 2.1');
    const [place, text, rule] = (await check()).err.split('\n');
    expect(place).toBe(`${clinic.path(RECORD)}:${line}:3  patient.weight`);
    expect(text).toBe(`  ${line}    weight: 2.1 # as of today`);
    expect(rule).toBe(`  ${' '.repeat(`${line}`.length + 4)}${'¯'.repeat('weight: 2.1'.length)}`);
  });

  it('shows the line of a table, which has no column to underline', async () => {
    clinic.edit('cases/clover/vitals.csv', /\n(\d+),\d+/, '\n$1,abc');
    const { err } = await check();
    expect(err).toMatch(/vitals\.csv:2 {2}\S.*\n {2}2 {2}\d+,abc.*\n {2}found/);
    expect(err).not.toContain('¯');
  });

  it('shows the part of a long line that is meant', async () => {
    clinic.edit(RECORD, 'species: rabbit', `species: ${' '.repeat(300)}rabit`);
    const rows = (await check()).err.split('\n');
    expect(Math.max(...rows.slice(0, 3).map((row) => row.length))).toBeLessThan(180);
  });
});

describe('problems for an editor', () => {
  it('are one JSON object with ranges, and the exit code is the same', async () => {
    clinic.edit(RECORD, 'species: rabbit', 'species: rabit');
    const { code, out, err } = await check('--json');
    expect({ code, err }).toEqual({ code: 1, err: '' });
    const line = clinic.lineOf(RECORD, 'species: rabit');
    expect(JSON.parse(out)).toMatchObject({
      problems: [
        {
          kind: 'problem',
          file: clinic.path(RECORD),
          line,
          column: 3,
          field: 'patient.species',
          mend: 'Did you mean "rabbit"?',
          range: { line, column: 3, end: 3 + 'species: rabit'.length },
        },
      ],
      warnings: [],
    });
  });

  it('hold the warnings with their answers', async () => {
    clinic.edit(RECORD, 'give: 1 mL', 'give: 0.4 mL');
    expect(JSON.parse((await check('--json')).out)).toMatchObject({
      problems: [],
      warnings: [{ kind: 'warning', field: 'home.medicines[0].give', accepted: null }],
    });
    expect((await check('--json')).code).toBe(0);
    expect((await check('--json', '--strict')).code).toBe(1);
  });

  it('are told of the clinic alike', async () => {
    clinic.edit('clinic.yaml', 'paper: Letter', 'paper: Leter');
    const { code, out } = await check('--json');
    clinic.restoreClinic();
    expect(code).toBe(1);
    expect(JSON.parse(out).problems).toHaveLength(1);
  });
});
