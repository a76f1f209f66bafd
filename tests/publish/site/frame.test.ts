import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { wholePassages } from '../../../src/live/search/passages.js';
import type { PublicFacts } from '../../../src/privacy/public-facts.js';
import { loadContent } from '../../../src/publish/content.js';
import { disk } from '../../../src/publish/disk.js';
import { house } from '../../../src/publish/house.js';
import { loadLibrary } from '../../../src/publish/library/library.js';
import { writeLibrary } from '../../../src/publish/library/write-library.js';
import {
  type Explanation,
  explanationsOn,
  seeAlso,
  topicsOf,
} from '../../../src/publish/site/explanations.js';
import { listsOf } from '../../../src/publish/site/lists.js';
import { ownPages } from '../../../src/publish/site/own-pages.js';
import { writeSite } from '../../../src/publish/site/public-tree.js';
import { searchIndex, searchScript, sectionsOf } from '../../../src/publish/site/search-index.js';
import { questionLinks } from '../../../src/publish/site/shown-case.js';
import type { ShownCase, Site } from '../../../src/publish/site/site.js';
import type { Block } from '../../../src/words/handout.js';
import type { Language } from '../../../src/words/language.js';
import { problemsFor } from '../../privacy/problems-of.js';

const content = loadContent(
  house.content,
  disk(() => undefined),
);
if (!content.ok) throw new Error('the words cannot be read');
const { languages } = content.value;
const english = languages.get('en') as Language;
const books = loadLibrary(
  house.content,
  content.value,
  disk(() => undefined),
);
if (!books.ok) throw new Error('the library cannot be read');
const library = books.value;

const said = (text: string): Block => ({
  kind: 'paragraph',
  said: { runs: [{ text }], facts: [] },
});
const heading = (text: string, level: 2 | 3 = 2): Block => ({ kind: 'heading', level, text });

const NOTHING = {
  rhythms: [],
  procedures: [],
  events: [],
  channels: [],
  layers: [],
  healing: [],
  shownRate: [],
};
const explanation = (
  file: string,
  language: string,
  topics: Partial<Explanation['topics']> = {},
): Explanation => ({
  file,
  title: `About ${file}`,
  lead: 'What stands behind it',
  language,
  blocks: [heading('The mean'), said('The mean feeds the organs.')],
  topics: { ...NOTHING, ...topics },
});

const site = (tag: string, more: Partial<Site> = {}): Site => ({
  language: languages.get(tag) as Language,
  languages,
  at: null,
  issued: null,
  own: ownPages(),
  explanations: [],
  shelf: {
    library,
    languages: [tag, tag === 'en' ? 'es' : 'en'].map((one) => languages.get(one) as Language),
  },
  ...more,
});

/** A case with only what the lists ask of it. */
function shown(
  name: string,
  { species = 'cat', procedure = 'spay', rhythms = ['sinus rhythm'] as (string | null)[] } = {},
  questions: readonly string[] = [],
): ShownCase {
  const blocks = [heading('Same'), ...questions.map((text) => heading(text, 3))];
  return {
    pseudonym: name,
    title: name,
    species,
    procedure,
    rhythms,
    questions: questionLinks({ address: `${name}/teaching`, handout: { blocks } }, questions),
    documents: [
      {
        file: `${name}/teaching.html`,
        reader: 'learner',
        title: name,
        lead: `About ${name}`,
        language: 'en',
        draft: null,
        label: 'Teaching case',
        passages: '',
        terms: [],
      },
    ],
  };
}

/** The public facts of a spay of a cat, as far as explanations are chosen by them. */
const SPAY = {
  procedure: 'spay',
  anesthesia: { events: [{ what: 'bleeding', minute: 1, note: null }] },
  vitals: { channels: [{ channel: 'mean' }] },
  wound: { layers: [], healing: { value: 'edge to edge' } },
  strips: [
    {
      shown: { value: null },
      analysis: { rhythms: [{ name: 'sinus rhythm', confidence: 0.9, within: [] }] },
    },
  ],
} as unknown as PublicFacts;

describe('the lists', () => {
  const groups = (name: string, cases: readonly ShownCase[], tag = 'en') =>
    listsOf(cases, site(tag))
      .find((list) => list.name === name)
      ?.groups.map(({ title, entries }) => [title, entries.map(({ href }) => href)]);

  it('tell of species and procedures in the language of the site', () => {
    const cases = [shown('a'), shown('b', { species: 'dog', procedure: 'spleen removal' })];
    expect(groups('species', cases)).toEqual([
      ['Cat', ['a/teaching.html']],
      ['Dog', ['b/teaching.html']],
    ]);
    expect(groups('species', cases, 'es')?.map(([title]) => title)).toEqual(['Gato', 'Perro']);
    expect(groups('procedures', cases)).toEqual([
      ['Ovariohysterectomy', ['a/teaching.html']],
      ['Splenectomy', ['b/teaching.html']],
    ]);
  });

  it('name a rhythm once a case, and put last what allowed no name', () => {
    const cases = [
      shown('a', { rhythms: ['sinus rhythm', null] }),
      shown('b', { rhythms: ['atrial fibrillation'] }),
      shown('c', { rhythms: [null] }),
    ];
    expect(groups('rhythms', cases)).toEqual([
      ['Atrial fibrillation', ['b/teaching.html']],
      ['Sinus rhythm', ['a/teaching.html']],
      ['No rhythm named', ['a/teaching.html', 'c/teaching.html']],
    ]);
  });

  it('lead from a question to the author’s heading, not to one of the page with the same words', () => {
    expect(groups('questions', [shown('a', {}, ['Why?', 'Same']), shown('b')])).toEqual([
      ['a', ['a/teaching.html#why', 'a/teaching.html#same-2']],
    ]);
  });
});

describe('what goes with a case', () => {
  it('is chosen by what the two have in common, in the language of the site', () => {
    const all = [
      explanation('much.html', 'en', { rhythms: ['sinus rhythm'], procedures: ['spay'] }),
      explanation('common.html', 'en', { channels: ['mean'], events: ['bleeding'] }),
      explanation('some.html', 'en', { procedures: ['spay'] }),
      explanation('otro.html', 'es', { procedures: ['spay'], rhythms: ['sinus rhythm'] }),
    ];
    const links = (tag: string) =>
      seeAlso(site(tag, { explanations: all }), SPAY).map(({ href }) => href);
    expect(links('en')).toEqual(['much.html', 'some.html']);
    expect(links('es')).toEqual(['otro.html']);
    expect(topicsOf(SPAY)).toMatchObject({
      rhythms: ['sinus rhythm'],
      procedures: ['spay'],
      events: ['bleeding'],
      channels: ['mean'],
      healing: ['edge to edge'],
    });
  });
});

describe('the index of the search', () => {
  it('has the words under each heading in the order of the page, examples and numbers of tables left out', () => {
    const index = searchIndex(
      [
        {
          ...explanation('a.html', 'en'),
          sections: () =>
            sectionsOf([
              said('First.'),
              heading('Why?'),
              { kind: 'code', text: 'name: Poppy', language: 'yaml' },
              {
                kind: 'paragraph',
                said: {
                  facts: [],
                  runs: [{ text: 'Write ' }, { text: 'on: 2026-03-09', code: true }],
                },
              },
              { kind: 'list', ordered: false, items: [{ facts: [], runs: [{ text: 'One' }] }] },
            ]),
        },
      ],
      english,
    );
    expect(wholePassages(index)).toEqual([
      { page: 0, at: '', heading: '', text: 'First.' },
      { page: 0, at: 'why', heading: 'Why?', text: 'Write … One' },
    ]);
  });

  it('writes once what many pages say, and reads every page whole', () => {
    const page = (file: string, ...texts: string[]) => ({
      ...explanation(file, 'en'),
      sections: () => [{ at: 'x', heading: 'Why?', texts }],
    });
    const index = searchIndex(
      [
        page('a.html', 'Ranges are for awake animals.', 'It fell.'),
        page('b.html', 'It rose.', 'Ranges are for awake animals.'),
      ],
      english,
    );
    expect(searchScript('en', index).match(/awake animals/g)).toHaveLength(1);
    expect(wholePassages(index).map(({ text }) => text)).toEqual([
      'Ranges are for awake animals. It fell.',
      'It rose. Ranges are for awake animals.',
    ]);
  });

  it('puts no two texts side by side that a search for identifiers could read as one', () => {
    const index = searchIndex(
      [
        {
          ...explanation('a.html', 'en'),
          sections: () => [
            {
              at: '',
              heading: '',
              texts: ['Born on', 'We met Poppy', 'Larkin said so in March', '12'],
            },
          ],
        },
        {
          ...explanation('b.html', 'en'),
          sections: () => [
            {
              at: '',
              heading: '',
              texts: ['Larkin said so in March', 'We met Poppy', '12', 'Larkin said so in March'],
            },
          ],
        },
      ],
      english,
    );
    const problems = problemsFor(
      ['Poppy Larkin', '2026-03-12'].map((text) => ({ what: 'an identifier', text })),
    );
    const search = (script: string) =>
      problems({ file: 'x.js', path: 'x.js', bytes: Buffer.from(script) });
    expect(search('We met Poppy","Larkin said so in March",12')).toHaveLength(2);
    expect(search(searchScript('en', index))).toEqual([]);
  });

  it('is handed over by a script that needs no other', () => {
    const script = searchScript(
      'en',
      searchIndex([{ ...explanation('a.html', 'en'), sections: () => [] }], english),
    );
    const scope: { thriceSearch?: Record<string, unknown> } = {};
    new Function('globalThis', script)(scope);
    expect(scope.thriceSearch?.en).toMatchObject({ pages: [{ file: 'a.html' }] });
  });
});

describe.each(['en', 'es'])('a site without a case, in %s', (tag) => {
  const folder = mkdtempSync(join(tmpdir(), 'site-'));
  const other = tag === 'en' ? 'es' : 'en';
  const read = (file: string) => readFileSync(join(folder, file), 'utf8');
  const pages = () =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.html'),
    );
  beforeAll(async () => {
    const one = site(tag);
    const groups = { least: 5, because: null, smallest: null, alike: [], reduced: [] };
    const whole = { ...one, explanations: explanationsOn(one.shelf) };
    await writeSite([], () => [], whole, groups, folder);
    await writeLibrary(whole, folder);
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it('leads to the library of its language from every page, and to the other within that one', () => {
    for (const file of pages()) {
      const inOther = read(file).includes(`<html lang="${other}"`);
      const up = '../'.repeat(file.split('/').length - 1);
      const place = `${up}library/${inOther ? `${other}/` : ''}`;
      for (const page of ['index', 'glossary']) {
        const wanted = new RegExp(`<nav class="masthead"[\\s\\S]*href="${place}${page}\\.html"`);
        expect(read(file), file).toMatch(wanted);
      }
    }
  });

  it('names on each page of the library the same page in the other language', () => {
    expect(read('library/index.html')).toContain(
      `href="../library/${other}/index.html" lang="${other}"`,
    );
    expect(read(`library/${other}/index.html`)).toContain(
      `href="../../library/index.html" lang="${tag}"`,
    );
  });

  it('has no feed and no map, as nobody said where it stands', () => {
    expect(readdirSync(folder)).not.toContain('feed.xml');
    expect(readdirSync(folder)).not.toContain('sitemap.xml');
    expect(read('index.html')).not.toMatch(/canonical|atom/);
  });

  it('finds the explanations in the search of their language', () => {
    expect(read(`assets/search-${tag}.js`)).toContain('"library/');
    expect(read(`assets/search-${other}.js`)).toContain(`"library/${other}/`);
  });
});
