import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import type { Identifier } from '../../src/privacy/identifiers.js';
import { prove } from '../../src/publish/steps/prove.js';
import { recallFound } from '../../src/publish/steps/recall.js';
import { searchPublic } from '../../src/publish/steps/search-public.js';
import type { Steps } from '../../src/publish/steps/steps.js';
import type { Workbench } from '../../src/publish/steps/workbench.js';
import type { KeptPart } from '../../src/publish/store/store.js';
import { openStore } from '../../src/publish/store/store.js';
import type { Withheld } from '../../src/publish/withheld.js';
import { accepted } from '../record/sample.js';
import { randomFrom } from '../synth/random.js';

/** What is known of documents that were searched before, against a search of everything that knows nothing. */

const home = mkdtempSync(join(tmpdir(), 'search-again-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));
let count = 0;
const fresh = (): string => join(home, `${count++}`);

/** Writes a public tree; each folder of it is the documents of a case, kept under its name. */
function treeOf(files: Readonly<Record<string, string>>) {
  const folder = fresh();
  const parts = new Map<string, KeptPart>();
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
    const key = dirname(path);
    const known = parts.get(key)?.files ?? [];
    parts.set(key, { key, files: [...known, { path: `public/${path}`, digest: '' }] });
  }
  return { folder, parts: [...parts.values()] };
}

/** A search with a store; it tells how many parts it had to search. */
function searcher(place = fresh()) {
  const store = accepted(openStore(place));
  const bench = { store, digest: 'a clinic', site: { issued: null } } as unknown as Workbench;
  let searched = 0;
  const steps = {
    prove: async (suspects) =>
      suspects.map((one) => {
        const known = recallFound(one, bench);
        if (!known) searched++;
        return known ?? prove(one, bench);
      }),
  } as Partial<Steps> as Steps;
  return async (
    { folder, parts }: ReturnType<typeof treeOf>,
    identifiers: readonly Identifier[],
    withheld: readonly Withheld[] = [],
  ) => {
    searched = 0;
    const problems = await searchPublic(folder, parts, { identifiers, withheld }, { steps, store });
    return { problems, searched };
  };
}

const named = (...texts: string[]): Identifier[] => texts.map((text) => ({ what: 'a name', text }));

it('seeks a new name alone in documents that were searched before', async () => {
  const files = { 'one/a.html': '<p>slept well</p>', 'two/b.html': '<p>ate</p>' };
  const tree = treeOf(files);
  const search = searcher();
  expect(await search(tree, named('Juniper'))).toEqual({ problems: [], searched: 3 });
  expect(await search(tree, named('Juniper'))).toEqual({ problems: [], searched: 0 });
  // Behind its back, so that whatever it seeks here it finds.
  writeFileSync(join(tree.folder, 'one/a.html'), '<p>Juniper slept with Saffron</p>');
  expect(await search(tree, named('Juniper', 'Clover'))).toEqual({ problems: [], searched: 3 });
  const { problems } = await search(tree, named('Juniper', 'Clover', 'Saffron'));
  expect(problems.map(({ found }) => found)).toEqual([
    expect.stringContaining('…<p>Juniper slept'),
    expect.stringContaining('slept with Saffron'),
  ]);
});

it('seeks nothing anew where a name is gone', async () => {
  const tree = treeOf({ 'one/a.html': '<p>slept well</p>', 'two/b.html': '<p>ate</p>' });
  const search = searcher();
  await search(tree, named('Juniper', 'Clover'));
  expect(await search(tree, named('Clover'))).toEqual({ problems: [], searched: 0 });
});

it('seeks nothing anew where a name is gone for one build and comes back, whoever it is called by', async () => {
  const tree = treeOf({ 'one/a.html': '<p>slept well</p>', 'two/b.html': '<p>ate</p>' });
  const search = searcher();
  await search(tree, named('Juniper', 'Clover'));
  expect((await search(tree, named('Clover', 'juniper.yaml'))).searched).toBe(3);
  const again = [...named('Clover'), { what: 'the name of a file', text: 'Juniper' }];
  expect(await search(tree, again)).toEqual({ problems: [], searched: 0 });
  // Behind its back, so that a name that is new after all is found.
  writeFileSync(join(tree.folder, 'one/a.html'), '<p>Juniper slept with Saffron</p>');
  expect((await search(tree, again)).problems).toEqual([]);
  expect((await search(tree, named('Juniper', 'Saffron'))).problems).toHaveLength(2);
});

it('seeks in the names of folders, and each time in what no part is known to be', async () => {
  const tree = treeOf({ 'one/a.html': '<p>slept well</p>', 'two-clover/b.html': '<p>ate</p>' });
  const search = searcher();
  expect((await search(tree, named('Juniper'))).problems).toEqual([]);
  const { problems } = await search(tree, named('Juniper', 'Clover'));
  expect(problems.map(({ file }) => file)).toEqual([
    join('public', 'two-clover'),
    join('public', 'two-clover', 'b.html'),
  ]);
  mkdirSync(join(tree.folder, 'juniper'));
  expect((await search(tree, named('Juniper'))).problems).toHaveLength(1);
  rmSync(join(tree.folder, 'juniper'), { recursive: true });
  writeFileSync(join(tree.folder, 'stray.txt'), 'slept well');
  expect((await search(tree, named('Juniper'))).problems).toEqual([]);
  writeFileSync(join(tree.folder, 'stray.txt'), 'Juniper slept well');
  expect((await search(tree, named('Juniper'))).problems).toHaveLength(1);
});

it('seeks everything in documents whose public files have changed, and in no others', async () => {
  const tree = treeOf({ 'one/a.html': '<p>slept well</p>', 'two/b.html': '<p>ate</p>' });
  const search = searcher();
  await search(tree, named('Juniper'));
  const parts = tree.parts.map(({ key, files }) => ({
    key: `${key} anew`,
    files: [
      ...files.map((file) => (key === 'one' ? { ...file, digest: 'another' } : file)),
      { path: `private/${key}.html`, digest: 'another' },
    ],
  }));
  writeFileSync(join(tree.folder, 'one/a.html'), '<p>Juniper slept</p>');
  const { problems, searched } = await search({ ...tree, parts }, named('Juniper'));
  expect(problems).toHaveLength(1);
  expect(searched).toBe(1);
});

it('seeks everything anew where it is no longer known what was sought', async () => {
  const tree = treeOf({ 'one/a.html': '<p>slept well</p>' });
  const place = fresh();
  const search = searcher(place);
  await search(tree, named('Barnaby', 'Marigold'));
  const lists = readdirSync(join(place, 'values'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((file) => readFileSync(file).includes('Barnaby'));
  expect(lists).not.toHaveLength(0);
  for (const file of lists) rmSync(file);
  writeFileSync(join(tree.folder, 'one/a.html'), '<p>Marigold slept</p>');
  expect((await search(tree, named('Marigold'))).problems).toHaveLength(1);
});

it.each([1, 2, 3])('tells what a search that knows nothing tells, seed %i', async (seed) => {
  const random = randomFrom(seed);
  const some = <T>(all: readonly T[], share: number): T[] =>
    all.filter(() => random.next() < share);
  const names = 'Juniper Clover Saffron Barnaby Quillfeather Thistledown Marigold'.split(' ');
  const planted = ['', '', 'Juniper', 'Q&#117;illfeather', '2026-03-10', '2026-05-11'];
  const texts = Array.from({ length: 8 }, () => {
    const word = planted[Math.floor(random.next() * planted.length)] as string;
    const wrapped = random.next() < 0.5 ? word : Buffer.from(`so ${word} slept`).toString('base64');
    return `<p>It was ${wrapped} that day.</p> <a href="../kept-back/teaching.html">x</a>`;
  });
  const tree = treeOf(
    Object.fromEntries(texts.map((text, i) => [`case-${i % 5}/${i}.html`, text])),
  );
  const search = searcher();
  const all: Identifier[] = [
    ...named(...names),
    { what: "the patient's name", text: 'Juniper' },
    { what: 'the date of surgery', text: '2026-03-10' },
    { what: 'the date of surgery', text: '2025-01-02' },
    { what: 'the date of birth', text: '2026-05-11' },
  ];
  let problems = 0;
  for (let turn = 0; turn < 5; turn++) {
    const identifiers = some(all, turn % 2 === 0 ? 0.3 : 0.8);
    const withheld = some(
      [{ start: 'kept-back/', what: 'a file of a case', because: 'x' }],
      turn === 3 ? 1 : 0,
    );
    const cold = await searcher()(tree, identifiers, withheld);
    problems += cold.problems.length;
    expect((await search(tree, identifiers, withheld)).problems).toEqual(cold.problems);
  }
  expect(problems, 'some were found').toBeGreaterThan(0);
});
