import { join } from 'node:path';
import { bad, good, type Outcome, type Problem } from '../../record/problem.js';
import { shortened } from '../../record/refusal.js';
import { RULES, WITHIN } from '../../signal/rhythm/handbook.js';
import type { GlossaryTerm } from '../../words/glossary.js';
import type { Block, Said } from '../../words/handout.js';
import { readText as plainText } from '../../words/handout-text.js';
import {
  marksIn,
  splitAtMarks,
  unsourced,
  writtenPassages,
} from '../../words/library/source-marks.js';
import { markdownBlocks } from '../../words/markdown.js';
import type { Content } from '../content.js';
import { type Effects, readText } from '../effects.js';
import { DRAWINGS, type DrawingName } from './drawings.js';
import { type About, type AboutKeys, type SplitPage, splitPage } from './front-matter.js';
import { loadGlossary } from './load-glossary.js';
import { type CitedSource, loadSources, sourcesFile } from './sources.js';

/** A page of the explanations library in one language. */
export interface LibraryPage {
  /** Name of its file without the ending, the same in every language. */
  readonly slug: string;
  /** Tag of a folder under content/. */
  readonly language: string;
  readonly title: string;
  readonly lead: string;
  readonly about: About;
  /** In the order in which the text first cites them; the first is `[1]`. */
  readonly sources: readonly CitedSource[];
  readonly cautions: readonly string[];
  readonly body: readonly LibraryBlock[];
}

/** What the text is made of; a mark has become a link to `#source-1`. */
type LibraryBlock =
  | { readonly kind: 'text'; readonly block: Block }
  | { readonly kind: 'drawing'; readonly name: DrawingName }
  /** Where the empty anesthesia charts are offered. */
  | { readonly kind: 'charts' };

export interface Library {
  /** Pages of each language, in the order of English titles. */
  readonly pages: ReadonlyMap<string, readonly LibraryPage[]>;
  readonly glossary: ReadonlyMap<string, readonly GlossaryTerm[]>;
}

/**
 * Reads the explanations of every language. English defines which pages there are, what they explain and what they cite:
 * a page that another language lacks is a problem, and so is one that cites or explains something else.
 */
export function loadLibrary(
  folder: string,
  { languages, keys }: Pick<Content, 'languages' | 'keys'>,
  effects: Effects,
): Outcome<Library> {
  const tags = [...languages.keys()];
  const sources = loadSources(folder, effects);
  const glossary = loadGlossary(folder, tags, effects);
  const problems: Problem[] = [
    ...(sources.ok ? [] : sources.problems),
    ...(glossary.ok ? [] : glossary.problems),
  ];
  const namesOf = (tag: string) =>
    effects.files(join(folder, tag, 'library')).filter((name) => name.endsWith('.md'));
  const english = namesOf('en');
  if (english.length === 0) {
    problems.push({
      kind: 'a language without its files',
      file: join(folder, 'en', 'library'),
      found: 'no pages',
      expected: 'the explanations in English',
      mend: 'Put the folder back.',
    });
  }
  if (!sources.ok || !glossary.ok) return bad(...problems);
  const aboutKeys: AboutKeys = {
    rhythms: [...RULES, ...WITHIN].flatMap(({ names }) => names),
    procedures: keys.procedures,
  };
  const pages = new Map<string, LibraryPage[]>();
  for (const tag of tags) {
    const names = namesOf(tag);
    problems.push(
      ...english.filter((name) => !names.includes(name)).map((name) => missing(folder, tag, name)),
      ...names.filter((name) => !english.includes(name)).map((name) => surplus(folder, tag, name)),
    );
    const read = names.map((name) =>
      readPage(folder, tag, name, { effects, aboutKeys, sources: sources.value, languages }),
    );
    problems.push(...read.flatMap((page) => (page.ok ? [] : page.problems)));
    pages.set(
      tag,
      read.flatMap((page) => (page.ok ? [page.value] : [])),
    );
  }
  problems.push(...differences(folder, pages));
  return problems.length > 0 ? bad(...problems) : good({ pages, glossary: glossary.value });
}

const missing = (folder: string, tag: string, name: string): Problem => ({
  kind: 'a page that another language lacks',
  file: join(folder, tag, 'library', name),
  found: 'no such page',
  expected: `a page that says what ${join(folder, 'en', 'library', name)} says`,
  mend: 'Write it, under the same name.',
});

const surplus = (folder: string, tag: string, name: string): Problem => ({
  kind: 'a page that another language lacks',
  file: join(folder, tag, 'library', name),
  found: 'a page that English does not have',
  expected: 'the same pages in each language',
  mend: `Write ${join(folder, 'en', 'library', name)} too, or mend the name of the file.`,
});

interface Desk {
  readonly effects: Effects;
  readonly aboutKeys: AboutKeys;
  readonly sources: ReadonlyMap<string, CitedSource>;
  readonly languages: Content['languages'];
}

function readPage(folder: string, tag: string, name: string, desk: Desk): Outcome<LibraryPage> {
  const file = join(folder, tag, 'library', name);
  const text = readText(desk.effects, file);
  if (!text.ok) return text;
  const parts = splitPage(text.value, file, desk.aboutKeys);
  if (!parts.ok) return parts;
  const { front, body, bodyLine } = parts.value;
  const { title, lead, about, sources: listed, cautions } = front.value;
  const cited = [...new Set(marksIn(body))];
  const drawn = bodyOf(body);
  const problems = [
    ...sourceProblems(parts.value, file, folder, desk, cited),
    ...writtenPassages(body, bodyLine).flatMap(({ line, text: passage }) => {
      const drawing = DRAWING.exec(passage)?.[1];
      return drawing === undefined || drawing in DRAWINGS
        ? []
        : [noSuchDrawing(file, line, drawing)];
    }),
  ];
  if (problems.length > 0) return bad(...problems);
  const order = cited.filter((mark) => listed.includes(mark));
  return good({
    slug: name.replace(/\.md$/, ''),
    language: tag,
    title,
    lead,
    about,
    sources: order.map((mark) => desk.sources.get(mark) as CitedSource),
    cautions,
    body: drawn.map((block) =>
      block.kind === 'text' ? { ...block, block: withLinks(block.block, order) } : block,
    ),
  });
}

/** Marks that lead nowhere, sources that nothing cites, and numbers that neither tell their source nor that they have none. */
function sourceProblems(
  { front, body, bodyLine }: SplitPage,
  file: string,
  folder: string,
  { sources, languages }: Desk,
  cited: readonly string[],
): Problem[] {
  const { sources: listed, cautions } = front.value;
  const passages = writtenPassages(body, bodyLine);
  const warned = cautions.map((text, i) => ({ line: front.at('cautions', i).line ?? 1, text }));
  const tag = file.split(/[\\/]/).at(-3) as string;
  const words = languages.get(tag)?.library;
  const phrases = words ? [words.text('stock.practice'), words.text('stock.memory')] : [];
  return [
    ...listed.flatMap((mark, index): Problem[] => {
      const place = front.at('sources', index);
      if (!sources.has(mark)) {
        return [
          {
            kind: 'a mark without its source',
            ...place,
            found: `"${mark}"`,
            expected: `the mark of a source in ${sourcesFile(folder)}`,
            mend: 'Add the source there, or mend the mark.',
          },
        ];
      }
      return cited.includes(mark)
        ? []
        : [
            {
              kind: 'a source that nothing cites',
              ...place,
              found: `"${mark}", which the text cites nowhere`,
              expected: 'only sources that the text cites',
              mend: `Put [${mark}] beside what it supports, or take it out of the list.`,
            },
          ];
    }),
    ...passages.flatMap(({ line, text }) =>
      marksIn(text)
        .filter((mark) => !listed.includes(mark))
        .map(
          (mark): Problem => ({
            kind: 'a mark without its source',
            file,
            line,
            found: `the mark [${mark}]`,
            expected: 'the mark of one of the sources of this page',
            mend: `Add "${mark}" to the sources above, or mend the mark.`,
          }),
        ),
    ),
    ...unsourced([...warned, ...passages], phrases).map(
      ({ line, text }): Problem => ({
        kind: 'a number without its source',
        file,
        line,
        found: `a number without its source: "${shortened(text, 80)}"`,
        expected: `the mark of a source in the same passage, or ${phrases.map((phrase) => `"${phrase}"`).join(' or ')}`,
        mend: 'Say where the number comes from.',
      }),
    ),
  ];
}

const noSuchDrawing = (file: string, line: number, name: string): Problem => ({
  kind: 'an unknown drawing',
  file,
  line,
  found: `the drawing "${name}"`,
  expected: `one of the drawings: ${Object.keys(DRAWINGS).join(', ')}`,
  mend: 'Mend its name, or take the line out.',
});

/** A paragraph that stands for a drawing. */
const DRAWING = /^\{figure: (.+)\}$/;

function bodyOf(text: string): LibraryBlock[] {
  return markdownBlocks(text).map((block): LibraryBlock => {
    const words = block.kind === 'paragraph' ? plainText(block.said) : '';
    const drawing = DRAWING.exec(words)?.[1];
    if (drawing !== undefined) return { kind: 'drawing', name: drawing as DrawingName };
    return words === '{charts}' ? { kind: 'charts' } : { kind: 'text', block };
  });
}

/** Marks become links to the list of sources, numbered in the order of the page. */
function withLinks(block: Block, order: readonly string[]): Block {
  const linked = (said: Said): Said => ({
    ...said,
    runs: said.runs.flatMap((run) =>
      splitAtMarks(run.text).map((part) => {
        if ('text' in part) return { ...run, text: part.text };
        const number = order.indexOf(part.mark) + 1;
        return { text: `[${number}]`, href: `#source-${number}` };
      }),
    ),
  });
  if (block.kind === 'paragraph') return { ...block, said: linked(block.said) };
  if (block.kind === 'list') return { ...block, items: block.items.map(linked) };
  if (block.kind === 'callout') return { ...block, said: block.said.map(linked) };
  return block;
}

/** Where a page explains or cites other things than its English original. */
function differences(
  folder: string,
  pages: ReadonlyMap<string, readonly LibraryPage[]>,
): Problem[] {
  const english = new Map((pages.get('en') ?? []).map((page) => [page.slug, page]));
  return [...pages].flatMap(([tag, all]) =>
    all.flatMap((page): Problem[] => {
      const original = english.get(page.slug);
      if (!original) return [];
      const file = join(folder, tag, 'library', `${page.slug}.md`);
      const same = (field: string, here: string, there: string): Problem[] =>
        here === there
          ? []
          : [
              {
                kind: 'pages that differ between languages',
                file,
                field,
                found: here || 'none',
                expected: `what the English page has: ${there || 'none'}`,
                mend: 'Bring the two pages together.',
              },
            ];
      const marks = ({ sources }: LibraryPage) =>
        sources
          .map(({ mark }) => mark)
          .sort()
          .join(', ');
      const drawings = ({ body }: LibraryPage) =>
        body
          .flatMap((block) =>
            block.kind === 'text' ? [] : [block.kind === 'drawing' ? block.name : 'charts'],
          )
          .join(', ');
      return [
        ...same('about', JSON.stringify(page.about), JSON.stringify(original.about)),
        ...same('sources', marks(page), marks(original)),
        ...same('drawings', drawings(page), drawings(original)),
      ];
    }),
  );
}
