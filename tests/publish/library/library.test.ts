import { cpSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Content, loadContent } from '../../../src/publish/content.js';
import { disk } from '../../../src/publish/disk.js';
import { house } from '../../../src/publish/house.js';
import { DRAWINGS, drawn } from '../../../src/publish/library/drawings.js';
import { type Library, loadLibrary } from '../../../src/publish/library/library.js';
import type { Outcome } from '../../../src/record/problem.js';
import { textOf } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import {
  hasClinicalNumber,
  marksIn,
  unsourced,
  writtenPassages,
} from '../../../src/words/library/source-marks.js';

const effects = disk(() => {});
const contentOf = (folder: string): Content => {
  const content = loadContent(folder, effects);
  if (!content.ok) throw new Error(JSON.stringify(content.problems));
  return content.value;
};
const load = (folder: string): Outcome<Library> => loadLibrary(folder, contentOf(folder), effects);

const { languages } = contentOf(house.content);
const own = load(house.content);
const library = (): Library => {
  if (!own.ok) throw new Error(JSON.stringify(own.problems, null, 1));
  return own.value;
};
const allPages = () => [...library().pages.values()].flat();

describe('the explanations', () => {
  it('are there in English and Spanish, page for page', () => {
    const slugs = [...library().pages].map(([, pages]) => pages.map(({ slug }) => slug));
    expect([...library().pages.keys()]).toEqual(['en', 'es']);
    expect(slugs[0]).toEqual(slugs[1]);
    expect(slugs[0]?.length).toBeGreaterThanOrEqual(13);
  });

  it('each cite a source and warn of something', () => {
    for (const { slug, language, sources, cautions } of allPages()) {
      expect(sources.length, `${language} ${slug}`).toBeGreaterThan(0);
      expect(cautions.length, `${language} ${slug}`).toBeGreaterThan(0);
    }
  });

  it('hold numbers with units, of which each tells where it comes from', () => {
    let numbers = 0;
    for (const { slug, language } of allPages()) {
      const text = readFileSync(join(house.content, language, 'library', `${slug}.md`), 'utf8');
      const passages = writtenPassages(text.slice(text.indexOf('\n---\n') + 5));
      numbers += passages.filter((passage) => hasClinicalNumber(passage.text)).length;
      const { library: words } = languages.get(language) as Language;
      const phrases = [words.text('stock.practice'), words.text('stock.memory')];
      expect(unsourced(passages, phrases), `${language} ${slug}`).toEqual([]);
    }
    expect(numbers).toBeGreaterThan(80);
  });

  it('name no dose of a drug', () => {
    for (const { slug, body } of allPages()) {
      const text = textOf(body.flatMap((block) => (block.kind === 'text' ? [block.block] : [])));
      expect(text, slug).not.toMatch(/\d\s?(?:mg|mcg|µg|mL)\/kg/);
    }
  });

  it('print each mark as a link to the numbered list of the page', () => {
    for (const { slug, language, sources, body } of allPages()) {
      const runs = body.flatMap((block) => {
        if (block.kind !== 'text') return [];
        if (block.block.kind === 'paragraph') return block.block.said.runs;
        return block.block.kind === 'list' ? block.block.items.flatMap((item) => item.runs) : [];
      });
      const links = runs.filter(({ href }) => href?.startsWith('#source-'));
      expect(new Set(links.map(({ href }) => href)), `${language} ${slug}`).toEqual(
        new Set(sources.map((_, i) => `#source-${i + 1}`)),
      );
      expect(runs.flatMap(({ text }) => marksIn(text))).toEqual([]);
    }
  });

  it('reckon right in their examples', () => {
    let sums = 0;
    for (const { slug, language, body } of allPages()) {
      const text = textOf(body.flatMap((block) => (block.kind === 'text' ? [block.block] : [])));
      for (const { sum, wrong } of sumsIn(text)) {
        sums += 1;
        expect(wrong, `${language} ${slug}: ${sum}`).toBe(false);
      }
    }
    expect(sums).toBeGreaterThan(40);
  });
});

/** Sums such as `40 × 60 / 30 = 80`, reckoned anew; the result may be rounded to the digits that it shows. */
function sumsIn(text: string): { sum: string; wrong: boolean }[] {
  const number = String.raw`\d+(?:\.\d+)?`;
  const unit = String.raw`(?:\s?(?:mL|mmHg|s|mm|kg|beats/min|latidos/min))?`;
  const sum = new RegExp(
    String.raw`(${number}${unit}(?: [×/+−] ${number}${unit})+) = (${number})(\s?%)?`,
    'g',
  );
  return [...text.matchAll(sum)].map(([whole, left = '', right = '', percent]) => {
    const parts = left.match(new RegExp(`${number}|[×/+−](?= )`, 'g')) ?? [];
    let value = Number(parts[0]);
    for (let i = 1; i < parts.length; i += 2) {
      const next = Number(parts[i + 1]);
      if (parts[i] === '×') value *= next;
      else if (parts[i] === '/') value /= next;
      else if (parts[i] === '+') value += next;
      else value -= next;
    }
    if (percent) value *= 100;
    if (/mL/.test(left) && /^\s?L/.test(text.slice(text.indexOf(whole) + whole.length)))
      value /= 1000;
    const digits = right.split('.')[1]?.length ?? 0;
    return { sum: whole, wrong: Math.abs(value - Number(right)) > 0.501 / 10 ** digits };
  });
}

it('finds a sum that is wrong', () => {
  expect(sumsIn('so 40 × 60 / 30 = 80 beats/min')).toMatchObject([{ wrong: false }]);
  expect(sumsIn('so 40 × 60 / 30 = 90 beats/min')).toMatchObject([{ wrong: true }]);
  expect(sumsIn('0.7 / 1.2 = 58 %')).toMatchObject([{ wrong: false }]);
});

describe('the drawings', () => {
  it('all stand on a page', () => {
    const shown = allPages().flatMap(({ body }) =>
      body.flatMap((block) => (block.kind === 'drawing' ? [block.name] : [])),
    );
    expect(new Set(shown)).toEqual(new Set(Object.keys(DRAWINGS)));
  });

  it.each(['en', 'es'])('have a caption and an alternative that is no caption (%s)', (tag) => {
    const { library: words } = languages.get(tag) as Language;
    for (const name of Object.keys(DRAWINGS) as (keyof typeof DRAWINGS)[]) {
      const { alternative, caption } = drawn(name, words);
      expect(alternative.length, name).toBeGreaterThan(100);
      expect(caption.runs[0]?.text, name).not.toBe(alternative);
    }
  });
});

describe('the glossary', () => {
  it('explains some dozens of terms in each language, each once', () => {
    for (const [tag, terms] of library().glossary) {
      expect(terms.length, tag).toBeGreaterThanOrEqual(40);
      expect(new Set(terms.map(({ term }) => term)).size, tag).toBe(terms.length);
      for (const { term, text } of terms) {
        expect(text, term).toMatch(/\.$/);
        expect(hasClinicalNumber(text), term).toBe(false);
        expect(text.split(/[.:] /).length, term).toBeLessThanOrEqual(4);
      }
    }
  });
});

describe('a library with a slip', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'library-'));
    cpSync(house.content, folder, { recursive: true });
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  const page = (tag: string, slug: string) => join(folder, tag, 'library', `${slug}.md`);
  const edit = (file: string, from: string, to: string) => {
    const text = readFileSync(file, 'utf8');
    if (!text.includes(from)) throw new Error(`${file} holds no ${from}`);
    writeFileSync(file, text.replace(from, to));
  };
  const problems = () => {
    const read = load(folder);
    return read.ok ? [] : read.problems;
  };
  const lineOf = (file: string, words: string) =>
    readFileSync(file, 'utf8')
      .split('\n')
      .findIndex((line) => line.includes(words)) + 1;

  it('names a page that a language lacks', () => {
    rmSync(page('es', 'p-qrs-t'));
    expect(problems()).toMatchObject([{ file: page('es', 'p-qrs-t'), found: 'no such page' }]);
  });

  it('names a page that English lacks', () => {
    renameSync(page('es', 'p-qrs-t'), page('es', 'p-qrst'));
    expect(problems().map(({ file }) => file)).toEqual([
      page('es', 'p-qrs-t'),
      page('es', 'p-qrst'),
    ]);
  });

  it('shows the line and the field of a word that a record does not know', () => {
    const file = page('en', 'closure-layers');
    edit(file, 'body wall, muscle', 'belly wall, muscle');
    expect(problems()[0]).toMatchObject({
      file,
      line: lineOf(file, 'belly wall, muscle'),
      field: 'about.layers[0]',
      found: '"belly wall"',
    });
  });

  it('shows the line of a number without a source', () => {
    const file = page('es', 'second-intention');
    edit(file, '(de memoria, sin verificar)', '');
    expect(problems()).toMatchObject([{ file, line: lineOf(file, 'A 0.6-0.8 mm') }]);
  });

  it('shows the line of a caution with a number without a source', () => {
    const file = page('en', 'second-intention');
    edit(file, 'needs to be seen the same day.', 'needs to be seen within 5 hours.');
    expect(problems()).toMatchObject([{ file, line: lineOf(file, 'within 5 hours') }]);
  });

  it('shows the line of a mark that leads nowhere', () => {
    const file = page('en', 'p-qrs-t');
    edit(file, 'more than the usual 25 % [saim]', 'more than the usual 25 % [siam]');
    expect(problems()).toMatchObject([
      { file, line: lineOf(file, '[siam]'), found: 'the mark [siam]' },
    ]);
  });

  it('names a source that the text does not cite, and one that nobody knows', () => {
    const file = page('en', 'breath-and-beat');
    edit(file, 'preop2018, sinuschapter]', 'preop2018, sinuschapter, saim, nobody1999]');
    const found = problems().map(({ found: what }) => what);
    expect(found).toEqual(['"saim", which the text cites nowhere', '"nobody1999"']);
  });

  it('names a drawing that does not exist', () => {
    const file = page('en', 'p-qrs-t');
    edit(file, '{figure: heart beat}', '{figure: heart beet}');
    expect(problems()[0]).toMatchObject({
      file,
      line: lineOf(file, 'heart beet'),
      found: 'the drawing "heart beet"',
    });
  });

  it('names a page that explains or cites something else than its original', () => {
    const file = page('es', 'reading-a-strip');
    edit(file, 'channels: [heart rate]', 'channels: [breaths]');
    expect(problems()).toMatchObject([{ file, field: 'about' }]);
  });

  it('names a page without front matter, and one without cautions', () => {
    const file = page('en', 'p-qrs-t');
    writeFileSync(file, '# P\n');
    expect(problems()[0]).toMatchObject({ file, line: 1, found: 'no front matter' });
    const other = page('en', 'local-blocks');
    const text = readFileSync(other, 'utf8');
    writeFileSync(other, text.replace(/cautions:\n( {2}- .*\n)+/, ''));
    expect(problems().find((problem) => problem.file === other)).toMatchObject({
      field: 'cautions',
    });
  });

  it('names a term that a language does not explain', () => {
    const file = join(folder, 'es', 'glossary.yaml');
    edit(file, '\nseroma:\n', '\nseromas:\n');
    expect(problems()).toMatchObject([{ file, field: 'seroma' }]);
  });

  it('takes no markup of its own into a page', () => {
    const file = page('en', 'p-qrs-t');
    edit(file, '## Three waves\n', '## Three waves\n\n<script>alert(1)</script>\n');
    const read = load(folder);
    if (!read.ok) throw new Error('not read');
    const [first] = (read.value.pages.get('en') ?? [])
      .filter(({ slug }) => slug === 'p-qrs-t')
      .flatMap(({ body }) => body.slice(1, 2));
    expect(first).toMatchObject({
      kind: 'text',
      block: { kind: 'paragraph', said: { runs: [{ text: '<script>alert(1)</script>' }] } },
    });
  });
});
