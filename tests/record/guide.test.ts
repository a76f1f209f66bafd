import { readFileSync } from 'node:fs';
import { Temporal } from 'temporal-polyfill';
import { expect, it } from 'vitest';
import { buildFacts } from '../../src/facts/build-facts.js';
import { readCase } from '../../src/record/read-case.js';
import { readVitals } from '../../src/record/vitals-file.js';
import { accepted, atHome, clinicWith, KEYS } from './sample.js';

const guide = readFileSync(new URL('../../content/en/guide.md', import.meta.url), 'utf8');

/** The first example of a kind in the guide. */
const example = (kind: string) =>
  new RegExp(`^\`\`\`${kind}\\n([\\s\\S]*?)^\`\`\``, 'm').exec(guide)?.[1] ?? '';

it('shows in the guide a record and a vitals file that can be read, and doses that fit', () => {
  const record = accepted(readCase(example('yaml'), 'guide.md', KEYS));
  const begin = Temporal.PlainDateTime.from(
    `2026-03-09T${record.value.anesthesia.begin}`,
  ).toZonedDateTime('America/Chicago');
  const vitals = accepted(readVitals(example('csv'), 'guide.md', begin));
  expect(vitals.rows.map(({ minute }) => minute)).toEqual([0, 5, 10]);
  const [medicine] = atHome(accepted(buildFacts(clinicWith(), record, vitals, []))).home.medicines;
  expect(medicine?.needed.value).toBe(4.5);
});
