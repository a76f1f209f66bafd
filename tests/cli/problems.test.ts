import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { TestClinic } from '../publish/clinic.js';
import { thrice } from './thrice.js';

const clinic = new TestClinic('clover');
const RECORD = 'cases/clover/case.yaml';
beforeEach(() => clinic.restore('clover'));
afterAll(() => clinic.remove());
const check = (...more: string[]) => thrice('check', clinic.folder, ...more);

describe('a check', () => {
  it('names a character that cannot be printed, before a build leaves the case out', async () => {
    clinic.edit(RECORD, 'site: lower belly', 'site: lower belly \u2603');
    const { code, err, out } = await check();
    expect(code).toBe(1);
    expect(err).toContain('the character "\u2603" (U+2603)');
    expect(out).not.toContain('No problem');
  });

  it('names two cases of one record number, whose doses would mix in a calendar', async () => {
    const two = new TestClinic('clover', 'saffron');
    two.edit('cases/saffron/case.yaml', '2026-0109', '2026-0223');
    two.edit('clinic.yaml', /calendars online:\n.*\n.*\n/, '');
    for (const name of ['clover', 'saffron']) {
      two.edit(`cases/${name}/case.yaml`, /given: yes/g, 'given: no');
    }
    // What else is wrong of either, or asked, is not hidden by it.
    two.edit(RECORD, 'rest: 10 days', 'rest: 6 days');
    const { code, out, err } = await thrice('check', two.folder);
    two.remove();
    expect(code).toBe(1);
    expect(err).toContain('"2026-0223", which the case clover has already');
    expect(err).toContain('such as "2026-0223-2"');
    expect(err).toContain('[T345]');
    expect(out).not.toContain('No problem in saffron');
  });

  it('says of a folder that is not there that it is not there', async () => {
    const { err } = await thrice('check', clinic.path('cases/nobody'));
    expect(err).toContain('no such folder');
  });
});

describe('a problem on the terminal', () => {
  it('shows its line, what is meant underlined, without the remark behind it', async () => {
    clinic.edit(RECORD, 'weight: 2.1 kg', 'weight: 2.1 # as of today');
    const line = clinic.lineOf(RECORD, 'weight: 2.1');
    const [place, text, rule] = (await check()).err.split('\n');
    expect(place).toBe(`${clinic.path(RECORD)}:${line}:3  patient.weight  [T207]`);
    expect(text).toBe(`  ${line}    weight: 2.1 # as of today`);
    expect(rule).toBe(`  ${' '.repeat(`${line}`.length + 4)}${'¯'.repeat('weight: 2.1'.length)}`);
  });

  it('shows the line of a table, with the cell that is meant underlined', async () => {
    clinic.edit('cases/clover/vitals.csv', /\n(\d+),\d+/, '\n$1,abc');
    const { err } = await check();
    expect(err).toMatch(/vitals\.csv:2:3 {2}\S.*\n {2}2 {2}\d,abc.*\n {7}¯¯¯\n {2}found/);
  });

  it('underlines a value within a group, not what follows it', async () => {
    clinic.edit(RECORD, 'layer: body wall', 'layer: bodywall');
    const rows = (await check()).err.split('\n');
    const at = (rows[1] ?? '').indexOf('layer: bodywall');
    expect(rows[2]).toBe(' '.repeat(at) + '¯'.repeat('layer: bodywall'.length));
  });

  it('shows no line where what is missing has none', async () => {
    clinic.edit(RECORD, 'record: "2026-0223"\n', '');
    expect((await check()).err).toMatch(/case\.yaml:1:1 {2}record {2}\[T206\]\n {2}found/);
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
          number: 'T207',
          kind: 'a value that is not understood',
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
      warnings: [{ number: 'T332', field: 'home.medicines[0].give', accepted: null }],
    });
    expect((await check('--json')).code).toBe(0);
    expect((await check('--json', '--strict')).code).toBe(1);
  });

  it('are told by build alike, which says nothing else', async () => {
    clinic.edit(RECORD, 'species: rabbit', 'species: rabit');
    const words = ['build', clinic.folder, '--out', clinic.out, '--json'];
    const { code, out, err } = await thrice(...words);
    expect({ code, err }).toEqual({ code: 1, err: '' });
    expect(JSON.parse(out).problems).toMatchObject([{ number: 'T207', range: { column: 3 } }]);
    clinic.restore('clover');
    expect(await thrice(...words)).toMatchObject({ code: 0, err: '' });
    expect(JSON.parse((await thrice(...words)).out)).toEqual({ problems: [], warnings: [] });
  });

  it('are told of the clinic alike', async () => {
    clinic.edit('clinic.yaml', 'paper: Letter', 'paper: Leter');
    const { code, out } = await check('--json');
    clinic.restoreClinic();
    expect(code).toBe(1);
    expect(JSON.parse(out).problems).toHaveLength(1);
  });
});
