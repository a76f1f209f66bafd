import { cpSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { house } from '../../src/publish/house.js';
import { assetFiles } from '../../src/publish/html/assets.js';
import { writeFiles } from '../../src/publish/html/tree-file.js';
import { type Library, writePages } from '../../src/publish/html/write-pages.js';
import { docsFrame } from './frame.js';
import { linkedWithin } from './links.js';
import { PAGES } from './pages.js';
import { referenceOf } from './reference.js';
import { muteIn, referencePages } from './reference-pages.js';

/**
 * Writes the documentation as a site of plain files into a folder: the pages of docs/, README and DEVELOPERS, and the
 * reference from the compiler's declarations of `src`. Gives how many pages, and which exports have no docstring.
 */
export async function writeDocs(
  declarations: string,
  folder: string,
): Promise<{ pages: number; mute: string[] }> {
  const folders = referenceOf(declarations);
  const written = PAGES.map((page) => {
    const text = linkedWithin(readFileSync(join(house.root, page.source), 'utf8'), page);
    return { file: page.file, text, title: titleOf(text) };
  });
  const all = [...written, ...referencePages(folders)];
  mkdirSync(folder, { recursive: true });
  const assets = assetFiles({
    display: 'optional',
    styles: ['shared/style.css', 'site/site.css', 'docs/docs.css'],
    scripts: ['site'],
  });
  writeFiles(assets, folder);
  cpSync(join(house.templates, 'site', 'icon.svg'), join(folder, 'assets', 'icon.svg'));
  await writePages(
    {
      templates: 'docs',
      data: {},
      amend: framed,
      pages: all.map(({ file, text, title }) => ({
        text,
        permalink: file,
        data: {
          layout: 'own-page.njk',
          kind: 'docs',
          // Braces in a page are what they are.
          templateEngineOverride: 'md',
          sheet: { frame: docsFrame(file, title, leadOf(text)) },
        },
      })),
    },
    folder,
  );
  const mute = [...folders.values()]
    .flat()
    .flatMap(({ path, exports }) => muteIn(exports).map((name) => `${path}: ${name}`));
  return { pages: all.length, mute };
}

const titleOf = (text: string): string => /^# (.+)$/m.exec(text)?.[1] ?? '';

/** The first paragraph, without the marks of Markdown. */
const leadOf = (text: string): string =>
  (/^[^#\n|`-].*$/m.exec(text)?.[0] ?? '').replace(/[*`]|\]\([^)]*\)|\[/g, '');

/**
 * A wide table scrolls in a frame of its own, and so does a block without a language; by keyboard too. Columns are
 * aligned by class, as a page may have no style of its own.
 */
function framed(library: Library): void {
  library.core.ruler.push('classes', ({ tokens }) => {
    for (const token of tokens) {
      if (token.type === 'fence' && token.info === '') token.info = 'text';
      const aligned = token.attrGet('style');
      if (aligned === null) continue;
      token.attrs = [['class', aligned === 'text-align:right' ? 'end' : 'middle']];
    }
  });
  const { rules } = library.renderer;
  rules.table_open = () =>
    '<div class="table-frame" role="group" aria-label="Table" tabindex="0"><table>\n';
  rules.table_close = () => '</table></div>\n';
}
