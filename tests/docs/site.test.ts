import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, posix } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { linkedWithin } from '../../docs/site/links.js';
import { PAGES } from '../../docs/site/pages.js';
import { exportsOf, referenceOf } from '../../docs/site/reference.js';
import { writeDocs } from '../../docs/site/write-docs.js';
import { root } from '../cli/thrice.js';
import { violationsOn } from '../publish/axe.js';
import { listen, pagesOf } from '../publish/site/in-chromium.js';
import { chromiumIsHere, launch } from '../tools/chromium.js';
import { PAGES as SOURCES } from './markdown.js';

const folder = mkdtempSync(join(tmpdir(), 'docs-site-'));
const declarations = join(folder, 'declarations');
const site = join(folder, 'site');
const compiled = spawnSync(
  process.execPath,
  [join(root, 'node_modules/typescript/bin/tsc'), '-p', 'docs/site', '--outDir', declarations],
  { cwd: root, encoding: 'utf8' },
);
if (compiled.status !== 0) throw new Error(compiled.stdout);
const { mute } = await writeDocs(declarations, site);
const pages = pagesOf(site);
const html = new Map(pages.map((page) => [page, readFileSync(join(site, page), 'utf8')]));
afterAll(() => rmSync(folder, { recursive: true }));

describe('the documentation as a site', () => {
  it('has a page for every Markdown page and for every folder of the reference', () => {
    expect(PAGES.map(({ source }) => source).sort()).toEqual([...SOURCES].sort());
    for (const { file } of PAGES) expect(pages).toContain(file);
    for (const name of ['signal', 'signal-rhythm', 'vitals', 'care', 'facts', 'privacy', 'draw']) {
      expect(pages).toContain(`api/${name}.html`);
    }
    expect(pages).toContain('api/words-reading.html');
  });

  it('leads nowhere that is not there', () => {
    for (const [page, text] of html) {
      for (const [, href = ''] of text.matchAll(/\shref="([^"]*)"/g)) {
        if (/^[a-z]+:/.test(href)) continue;
        const [path = '', place] = href.split('#');
        const to = path === '' ? page : posix.join(posix.dirname(page), path);
        if (!to.endsWith('.html')) continue;
        expect(pages, `${page}: ${href}`).toContain(to);
        if (place) expect(html.get(to)?.includes(`id="${place}"`), `${page}: ${href}`).toBe(true);
      }
    }
  });

  it('refuses a link to what is no page', () => {
    const page = PAGES.find(({ source }) => source === 'docs/authors.md');
    const linked = (text: string) => linkedWithin(text, page as NonNullable<typeof page>);
    expect(linked('[a](messages.md#exit-codes), [b](../README.md)')).toBe(
      '[a](messages.html#exit-codes), [b](readme.html)',
    );
    expect(linked('`[a](x.md)`\n```sh\n[a](x.md)\n```')).toBe('`[a](x.md)`\n```sh\n[a](x.md)\n```');
    expect(() => linked('[a](nowhere.md)')).toThrow('docs/authors.md links to nowhere.md');
  });
});

describe('the reference', () => {
  it('tells name, shape and docstring of what a module exports', () => {
    const told = exportsOf(
      [
        '/** Of the file. */',
        'import type { Seconds } from "./units.js";',
        '/**',
        ' * The mean, in seconds.',
        ' * @param times ascending, at least two',
        ' */',
        'export declare function mean(times: readonly Seconds[]): Seconds;',
        'export interface Span {',
        '    /** s */',
        '    readonly from: number;',
        '}',
        '/** Too far away. */',
        '',
        'declare const hidden: number;',
        'export { mean as other };',
        'export declare function strip(one: ReadonlyMap<string, (at: number) => Span>, { two }: { two: number }): Span | null;',
      ].join('\n'),
    );
    expect(told).toEqual([
      {
        name: 'mean',
        shape: 'function mean(times: readonly Seconds[]): Seconds;',
        about: 'The mean, in seconds.\n\n- `times`: ascending, at least two',
      },
      {
        name: 'Span',
        shape: 'interface Span {\n  /** s */\n  readonly from: number;\n}',
        about: '',
      },
      {
        name: 'strip',
        shape: [
          'function strip(',
          '  one: ReadonlyMap<string, (at: number) => Span>,',
          '  { two }: { two: number },',
          '): Span | null;',
        ].join('\n'),
        about: '',
      },
    ]);
  });

  it('tells each export of the pure floors once, with its docstring', () => {
    const modules = [...referenceOf(declarations).values()].flat();
    const analyse = modules.find(({ path }) => path === 'signal/analyse.ts');
    expect(analyse?.exports.map(({ name }) => name)).toEqual(['analyseStrip']);
    const page = html.get('api/signal.html') ?? '';
    expect(page).toContain('<h3 id="analysestrip">analyseStrip</h3>');
    expect(page).toContain('are ECG leads in mV that begin together');
    for (const { path, exports } of modules) {
      const page = html.get(`api/${dirname(path).replaceAll('/', '-')}.html`) ?? '';
      for (const { name } of exports)
        expect(page, path).toMatch(new RegExp(`<h3 id="[^"]+">${name}<`));
    }
  });

  it('has a docstring for everything that it tells of', () => {
    expect(mute).toEqual([]);
  });
});

describe.runIf(chromiumIsHere)('the documentation in a browser', () => {
  it('has no barrier, no complaint and nothing wider than the screen, light and dark', async () => {
    const browser = await launch();
    try {
      for (const [width, colorScheme] of [
        [375, 'dark'],
        [1100, 'light'],
      ] as const) {
        const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme });
        const heard = await listen(page);
        for (const one of [
          ...PAGES.map(({ file }) => file),
          ...['index', 'care', 'signal-rhythm'].map((name) => `api/${name}.html`),
        ]) {
          await page.goto(pathToFileURL(join(site, one)).href);
          const over = 'document.documentElement.scrollWidth - innerWidth';
          expect(await page.evaluate<number>(over), `${one} at ${width}`).toBe(0);
          expect(heard.complaints, `${one} at ${width}`).toEqual([]);
          // The long pages of measurements are searched for barriers once.
          if (width > 375 && /truth|messages/.test(one)) continue;
          expect(await violationsOn(page), `${one} at ${width}`).toEqual([]);
          // The tool asks for files that the page's own rule keeps from it.
          heard.complaints.length = 0;
        }
        await page.close();
      }
    } finally {
      await browser.close();
    }
  }, 240_000);
});
