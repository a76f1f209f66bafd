import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { Temporal } from 'temporal-polyfill';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { readVitals } from '../../src/record/vitals-file.js';
import { root, thrice } from '../cli/thrice.js';
import { DEMO, TestClinic } from './clinic.js';

const guide = readFileSync(join(root, 'content/en/guide.md'), 'utf8');

/** The text of the guide's example in a language. */
function example(language: string): string {
  const found = new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``).exec(guide)?.[1];
  if (found === undefined) throw new Error(`the guide has no ${language} example`);
  return found;
}

it('shows a record that the JSON Schema accepts', () => {
  const schema = readFileSync(join(DEMO, 'schema/case.schema.json'), 'utf8');
  const validate = new Ajv2020({ strictTypes: false }).compile(JSON.parse(schema) as object);
  validate(parse(example('yaml')));
  expect(validate.errors).toBeNull();
});

it('shows a vitals file that can be read', () => {
  const begin = Temporal.PlainDateTime.from('2026-03-09T09:10');
  const vitals = readVitals(example('csv'), 'vitals.csv', begin);
  expect(vitals).toMatchObject({
    ok: true,
    value: { rows: [{ minute: 0 }, { minute: 5 }, { minute: 10 }] },
  });
});

it('shows a record and a vitals file that make a case without a problem', async () => {
  const clinic = new TestClinic('clover');
  writeFileSync(clinic.path('cases/clover/case.yaml'), example('yaml'));
  writeFileSync(clinic.path('cases/clover/vitals.csv'), example('csv'));
  expect(await thrice('check', clinic.folder)).toMatchObject({ code: 0, err: '' });
  clinic.remove();
});

it('shows commands that are understood', async () => {
  const commands = example('sh').trim().split('\n');
  expect(commands.length).toBeGreaterThan(2);
  const folder = mkdtempSync(join(tmpdir(), 'guide-'));
  cpSync(join(DEMO, 'cases/juniper/strip.edf'), join(folder, 'strip.edf'));
  for (const line of commands) {
    const [npx, name, ...words] = line.split(' ');
    expect([npx, name]).toEqual(['npx', 'thrice']);
    // The clinic of the example is not here: understood, then not found.
    const placed = words.map((word) =>
      /^(my-clinic|out|strip\.edf)$/.test(word) ? join(folder, word) : word,
    );
    const { code, err } = await thrice(...placed);
    expect(code, `${line}\n${err}`).toBe(words[0] === 'strip' ? 0 : 1);
  }
  rmSync(folder, { recursive: true });
});

it('names every file that it tells of as the demo clinic names it', () => {
  for (const name of ['case.yaml', 'vitals.csv', 'teaching.md', 'clinic.yaml']) {
    expect(guide).toContain(`\`${name}\``);
  }
});
