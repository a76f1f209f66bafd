// Writes the JSON Schemas of the record's files; `npm run schema` runs it after a change of the record or of content/en.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { parse } from 'yaml';
import { jsonSchemas } from '../../dist/record/json-schema.js';

const keysOf = (name) =>
  Object.keys(
    parse(readFileSync(new URL(`../../content/en/${name}.yaml`, import.meta.url), 'utf8')),
  );

const keys = {
  procedures: keysOf('procedures'),
  purposes: keysOf('purposes'),
  // A language is a folder.
  languages: readdirSync(new URL('../../content', import.meta.url), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => name)
    .sort(),
};
for (const [name, schema] of Object.entries(jsonSchemas(keys))) {
  writeFileSync(new URL(name, import.meta.url), `${JSON.stringify(schema, null, 2)}\n`);
}
