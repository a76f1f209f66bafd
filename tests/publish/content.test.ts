import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { loadContent } from '../../src/publish/content.js';
import { disk } from '../../src/publish/disk.js';
import { house } from '../../src/publish/house.js';

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
