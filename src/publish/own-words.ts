import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { OF_FORMATS } from '../privacy/common-words.js';
import { house } from './house.js';
import { sourcesFile } from './library/sources.js';
import { ownPages } from './site/own-pages.js';

/** The words that pages print of themselves, whoever the patient is: those of the content, the templates and formats. */
export function ownWords(): Set<string> {
  const words = new Set(OF_FORMATS);
  const sources = sourcesFile(house.content);
  for (const folder of [house.content, house.templates]) {
    for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
      // The authors who are cited are no words of the pages: an owner may bear such a name.
      if (!entry.isFile() || join(entry.parentPath, entry.name) === sources) continue;
      const text = readFileSync(join(entry.parentPath, entry.name), 'utf8');
      for (const [word] of text.matchAll(/[\p{L}\p{M}]+/gu)) words.add(word.toLowerCase());
    }
  }
  return words;
}

/**
 * Public pages that no case has a part in, with the text that they are made of, by their path. What an owner reads of
 * the public is none of them: it has no example with dates and names. The glossary is none either, as it leads back to the pages of cases.
 */
export const ownTexts = (): Map<string, Uint8Array> =>
  new Map([
    ...ownPages()
      .filter(({ section }) => section === 'guide')
      .map(({ file, bytes }): [string, Uint8Array] => [file, bytes]),
    ...explanations(),
  ]);
/** The explanations of each language, wherever a clinic's order of languages puts them. */
function explanations(): [string, Uint8Array][] {
  const cited = readFileSync(sourcesFile(house.content));
  return readdirSync(house.content, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .flatMap(({ name: tag }) =>
      readdirSync(join(house.content, tag, 'library')).flatMap((file): [string, Uint8Array][] => {
        const text = Buffer.concat([
          readFileSync(join(house.content, tag, 'library', file)),
          cited,
        ]);
        const page = file.replace(/\.md$/, '.html');
        return [
          [join('library', page), text],
          [join('library', tag, page), text],
        ];
      }),
    );
}
