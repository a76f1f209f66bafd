import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { jsonSchemas } from '../../src/record/json-schema.js';
import { root } from '../cli/thrice.js';

const read = (path: string) => readFileSync(join(root, path), 'utf8');
const keysOf = (file: string) => Object.keys(parse(read(`content/en/${file}.yaml`)) as object);
const generated = jsonSchemas({
  procedures: keysOf('procedures'),
  purposes: keysOf('purposes'),
  languages: ['en', 'es'],
});
const CASES = readdirSync(join(root, 'demo-data/cases')).map(
  (name) => `demo-data/cases/${name}/case.yaml`,
);
const CLINIC = 'demo-data/clinic.yaml';
const FORMULARY = 'demo-data/formulary.yaml';

const schemaFile = (name: string) => JSON.parse(read(`demo-data/schema/${name}`)) as object;
const ajv = new Ajv2020({ strict: true, strictTypes: false, allErrors: true });
const caseValidator = ajv.compile(schemaFile('case.schema.json'));
const clinicValidator = ajv.compile(schemaFile('clinic.schema.json'));
const formularyValidator = ajv.compile(schemaFile('formulary.schema.json'));
const KINDS = [
  [CLINIC, 'clinic.schema.json', clinicValidator],
  [FORMULARY, 'formulary.schema.json', formularyValidator],
] as const;
const kindOf = (path: string) => KINDS.find(([file]) => file === path);

describe.each(Object.entries(generated))('demo-data/schema/%s', (name, schema) => {
  it('is what `npm run schema` writes from the record’s own schema', () => {
    expect(read(`demo-data/schema/${name}`)).toBe(`${JSON.stringify(schema, null, 2)}\n`);
  });

  it('is JSON Schema 2020-12', () => {
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(ajv.validateSchema(schemaFile(name))).toBe(true);
  });
});

describe.each([...CASES, CLINIC, FORMULARY])('%s', (path) => {
  it('names in its first line a schema that is there', () => {
    const named = /^# yaml-language-server: \$schema=(\S+)\n/.exec(read(path))?.[1];
    expect(named?.split('/').at(-1)).toBe(kindOf(path)?.[1] ?? 'case.schema.json');
    expect(existsSync(join(root, dirname(path), named as string))).toBe(true);
  });

  it('is accepted by an independent validator', () => {
    const validate = kindOf(path)?.[2] ?? caseValidator;
    validate(parse(read(path)));
    expect(validate.errors).toBeNull();
  });
});

describe('an independent validator refuses', () => {
  const good = read('demo-data/cases/juniper/case.yaml');
  const broken: readonly [what: string, from: string, to: string, place: string][] = [
    ['a key that is not known', '  breed:', '  colour: liver and white\n  breed:', '/patient'],
    ['a record without a weight', '  weight: 22 kg\n', '', '/patient'],
    ['a species that is not known', 'species: dog', 'species: horse', '/patient/species'],
    ['a weight without a unit', 'weight: 22 kg', 'weight: 22', '/patient/weight'],
    ['a date in words', 'date: 2026-03-10', 'date: 10 March', '/surgery/date'],
    ['a procedure without content', 'skin lump removal', 'tail lift', '/surgery/procedure'],
    ['no dose at all', 'doses: 4', 'doses: 0', '/home/medicines/0/doses'],
    ['half a dose', 'doses: 4', 'doses: 4.5', '/home/medicines/0/doses'],
    ['a purpose without content', 'for: pain and swelling', 'for: fun', '/home/medicines/0/for'],
    [
      'consent that is neither yes nor no',
      'teaching: { given: yes',
      'teaching: { given: maybe',
      '/consent/teaching/given',
    ],
    [
      'an address with spaces',
      'address: ventilator-and-heartbeat',
      'address: the heart',
      '/published/address',
    ],
  ];

  it.each(broken)('%s', (_, from, to, place) => {
    expect(good).toContain(from);
    expect(caseValidator(parse(good.replace(from, to)))).toBe(false);
    expect(caseValidator.errors?.map(({ instancePath }) => instancePath)).toContain(place);
  });

  it('a clinic without hours for a day, or with a third paper size', () => {
    const text = read(CLINIC);
    expect(clinicValidator(parse(text.replace(/ {2}sunday: closed\n/, '')))).toBe(false);
    expect(clinicValidator(parse(text.replace('paper: Letter', 'paper: Legal')))).toBe(false);
  });
});
