import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { OF_FORMATS } from '../privacy/common-words.js';
import { type OwnText, ownTextOf } from '../privacy/own-text.js';
import { house } from './house.js';
import { sourcesFile } from './library/sources.js';
import { ownPages } from './site/own-pages.js';

/**
 * What pages print of themselves, whoever the patient is: the content, the templates, the words of formats. Neither the
 * authors who are cited nor the people of the guide's example are among it: an owner may bear such a name.
 */
export function ownText(): OwnText {
  const examples = new Set([
    sourcesFile(house.content),
    ...readdirSync(house.content).map((language) => join(house.content, language, 'guide.md')),
  ]);
  const texts = [house.content, house.templates].flatMap((folder) =>
    readdirSync(folder, { withFileTypes: true, recursive: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .filter((file) => !examples.has(file))
      .sort()
      .map((file) => ({
        place: relative(dirname(house.content), file),
        text: readFileSync(file, 'utf8'),
      })),
  );
  return ownTextOf(texts, OF_FORMATS);
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
