import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { contentAgain, loadContent, parseContent } from '../../src/publish/content.js';
import { disk } from '../../src/publish/disk.js';
import { house } from '../../src/publish/house.js';
import type { LoadedCase } from '../../src/publish/load-case.js';
import { readingOf } from '../../src/publish/reading.js';
import { readCase } from '../../src/record/read-case.js';
import type { Language } from '../../src/words/language.js';
import { ownerSheet } from '../../src/words/owner/owner-sheet.js';
import { demo } from '../facts/demo.js';
import { accepted, CASE, changed, KEYS } from '../record/sample.js';

let folder: string;
const load = () =>
  loadContent(
    folder,
    disk(() => {}),
  );

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'content-'));
  cpSync(house.content, folder, { recursive: true });
});
afterEach(() => rmSync(folder, { recursive: true }));

it('takes the procedures and purposes that a record may name from the English words', () => {
  const content = load();
  expect(content).toMatchObject({ ok: true });
  if (content.ok) expect(content.value.keys.procedures).toContain('spay');
});

it('is the same of words that were parsed before', () => {
  const effects = disk(() => {});
  const [content, parsed] = [load(), parseContent(folder, effects)];
  if (!content.ok || !parsed.ok) throw new Error('the words cannot be read');
  const again = contentAgain(folder, deserialize(serialize(parsed.value)), effects);
  expect(again.keys).toEqual(content.value.keys);
  for (const [tag, language] of content.value.languages) {
    const same = again.languages.get(tag) as Language;
    expect(same.terms).toEqual(language.terms);
    expect(same.vocabulary()).toEqual(language.vocabulary());
    expect(same.site.text('seeAlso')).toBe(language.site.text('seeAlso'));
    for (const key of ['foot', 'call.items.0', 'no.such.key'])
      expect(again.place(tag, 'owner', key)).toEqual(content.value.place(tag, 'owner', key));
  }
});

it('shows the line at which the words of a language stop being YAML', () => {
  const file = join(folder, 'en', 'owner.yaml');
  writeFileSync(file, 'title: Home care\ndraft: Draft.\ntitle: Again\n');
  const content = load();
  expect(content).toMatchObject({
    ok: false,
    problems: [{ file, line: 3, expected: 'YAML that can be read' }],
  });
});

it('names each file of words that is missing', () => {
  rmSync(join(folder, 'es', 'trade.yaml'));
  rmSync(join(folder, 'en', 'purposes.yaml'));
  const content = load();
  expect(content.ok ? [] : content.problems.map(({ file }) => file)).toEqual([
    join(folder, 'en', 'purposes.yaml'),
    join(folder, 'es', 'trade.yaml'),
  ]);
});

it('names each message that a language lacks, with what English says', () => {
  const file = join(folder, 'es', 'owner.yaml');
  const words = readFileSync(file, 'utf8');
  writeFileSync(file, words.replace(/^ {2}look: .*\n/m, '').replace(/^foot: /m, 'fot: '));
  const content = load();
  expect(content.ok ? [] : content.problems).toMatchObject([
    { file, field: 'foot', found: 'no words under this key' },
    {
      file,
      field: 'wound.look',
      expected: expect.stringMatching(/en.owner\.yaml:\d+ says: "Look at the wound two times/),
    },
  ]);
});

it('takes a new folder for a new language, down to the sheet that an owner gets', () => {
  cpSync(join(folder, 'es'), join(folder, 'fr'), { recursive: true });
  const file = join(folder, 'fr', 'owner.yaml');
  writeFileSync(
    file,
    readFileSync(file, 'utf8').replace(/^title: .*/m, "title: 'Soins pour {patient}'"),
  );
  const content = load();
  if (!content.ok) throw new Error(JSON.stringify(content.problems));
  const { keys, languages } = content.value;
  expect(keys.languages).toEqual(['en', 'es', 'fr']);
  const record = readCase(changed(CASE, ['  phone: 555 0161', '  language: fr']), 'case.yaml', {
    ...KEYS,
    languages: keys.languages,
  });
  expect(accepted(record).value.owner.language).toBe('fr');
  const french = languages.get('fr') as Language;
  const [one] = demo.cases;
  const sheet = ownerSheet((one as (typeof demo)['cases'][number]).facts, french, []);
  expect(sheet).toMatchObject({ language: 'fr', title: expect.stringMatching(/^Soins pour /) });
  expect(french.clock.fullDay('2026-03-24')).toMatch(/mars/);
  expect(
    readingOf({ ...(one as LoadedCase), facts: inFrench(one as LoadedCase) }, content.value)
      .summary,
  ).toContain('reading level not computed');
});

const inFrench = ({ facts }: LoadedCase) => ({
  ...facts,
  identity: { ...facts.identity, owner: { ...facts.identity.owner, language: 'fr' } },
});
