import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, beforeEach, expect, it } from 'vitest';
import type { CaseFacts } from '../../src/facts/case-facts.js';
import { TestClinic } from '../publish/clinic.js';
import { thrice } from './thrice.js';

const clinic = new TestClinic('tucker');
const CASE = 'cases/tucker/case.yaml';
const TABLE = 'cases/tucker/export.txt';
beforeEach(() => {
  clinic.restoreClinic();
  clinic.restore('tucker');
});
afterAll(() => clinic.remove());

const facts = async (): Promise<CaseFacts['vitals']> => {
  const { code, out, err } = await thrice('facts', clinic.path('cases/tucker'), '--json');
  expect({ code, err }).toEqual({ code: 0, err: '' });
  return (JSON.parse(out) as CaseFacts).vitals;
};
const values = ({ channels }: CaseFacts['vitals']) =>
  channels.map(({ channel, patient }) => [
    channel,
    patient.map(({ minute, value }) => [minute, value]),
  ]);

/** The demo's vitals as another monitor would have written them. */
function otherMonitor(): void {
  const [header = '', ...lines] = readFileSync(clinic.path('cases/tucker/vitals.csv'), 'utf8')
    .trim()
    .split('\n');
  const titles = header
    .split(',')
    .map((title) => (title === 'clock' ? 'Uhr' : title.replace('/min', 'bpm')));
  const body = lines.map((line) =>
    line
      .split(',')
      .map((cell, index) =>
        index === 0 ? `21.04.2026 ${cell}:00` : cell === '' ? '--' : cell.replace('.', ','),
      )
      .join(';'),
  );
  const text = ['Station 4', '', titles.join(';'), ...body].join('\r\n');
  writeFileSync(clinic.path(TABLE), Buffer.from(`\ufeff${text}`, 'utf16le'));
  clinic.edit(CASE, 'vitals: vitals.csv', 'vitals: export.txt\n  table: ward');
}

/** Puts the proposed form of a table into the clinic's file, and the table into the case. */
async function readAsProposed(text: string): Promise<string> {
  writeFileSync(clinic.path(TABLE), text);
  clinic.edit(CASE, 'vitals: vitals.csv', 'vitals: export.txt\n  table: ward');
  const { code, out, err } = await thrice('table', clinic.path(TABLE), '--name', 'ward');
  expect({ code, err }).toEqual({ code: 0, err: '' });
  const file = clinic.path('clinic.yaml');
  writeFileSync(file, `${readFileSync(file, 'utf8')}\n${out}\n`);
  return out;
}

it('proposes a form for one reading a line, and for columns of fixed width, that tells the same', async () => {
  const [header = '', ...lines] = readFileSync(clinic.path('cases/tucker/vitals.csv'), 'utf8')
    .trim()
    .split('\n');
  const rows = lines.map((line) => line.split(','));
  const titles = header.split(',').map((title) => title.replace('/min', 'bpm'));
  const before = values(await facts()).toSorted();

  const told = rows.flatMap(([clock, ...cells]) =>
    cells.flatMap((cell, index) => {
      const [, name, unit] = /^(.*) \[(.*)\]$/.exec(titles[index + 1] as string) ?? [];
      return cell === '' ? [] : [`${clock}\t${name}\t${unit}\t${cell}`];
    }),
  );
  const out = await readAsProposed(['When\tWhat\tIn\tIt is', ...told].join('\n'));
  expect(out).toContain('names in: What');
  expect(values(await facts()).toSorted()).toEqual(before);

  clinic.restoreClinic();
  clinic.restore('tucker');
  const padded = (cells: readonly string[]) =>
    cells.map((cell, index) => cell.padStart(index === 0 ? 5 : 18)).join('');
  const fixed = await readAsProposed([titles, ...rows].map(padded).join('\n'));
  expect(fixed).toContain('column widths: [5, 18');
  expect(values(await facts()).toSorted()).toEqual(before);
});

it('proposes a form under which another monitor tells the same', async () => {
  const before = values(await facts());
  otherMonitor();
  const { code, out, err } = await thrice('table', clinic.path(TABLE), '--name', 'ward');
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toContain('# In case.yaml: monitor: { vitals: export.txt, table: ward }');
  writeFileSync(
    clinic.path('clinic.yaml'),
    `${readFileSync(clinic.path('clinic.yaml'), 'utf8')}\n${out}\n`,
  );
  expect(values(await facts())).toEqual(before);
});

it('names a form that the clinic has not, where the record names it', async () => {
  otherMonitor();
  const { code, err } = await thrice('check', clinic.folder);
  expect(code).toBe(1);
  expect(err).toContain(`case.yaml:${clinic.lineOf(CASE, 'table: ward')}`);
  expect(err).toContain('thrice table FILE');
});

it('takes the stated difference of the clocks off every reading', async () => {
  const before = values(await facts());
  clinic.edit(CASE, 'vitals: vitals.csv', 'vitals: vitals.csv\n  clock of vitals: 90 s ahead');
  expect(values(await facts())).toEqual(
    before.map(([channel, readings]) => [
      channel,
      (readings as [number, number][]).map(([minute, value]) => [minute - 1.5, value]),
    ]),
  );
});

it('refuses a difference that it cannot read', async () => {
  clinic.edit(CASE, 'vitals: vitals.csv', 'vitals: vitals.csv\n  clock of vitals: 90 s later');
  expect((await thrice('check', clinic.folder)).err).toContain('"90 s ahead" or "2 min behind"');
});

it('proposes nothing for what is no table', async () => {
  const { code, out, err } = await thrice('table', clinic.path('clinic.yaml'));
  expect({ code, out }).toEqual({ code: 1, out: '' });
  expect(err).toContain('clinic.yaml');
});
