import syntaxHighlight from '@11ty/eleventy-plugin-syntaxhighlight';
import MarkdownIt from 'markdown-it';

/** How the pages are put together; `src/publish/html/site.ts` supplies what they say. */
export default function pages(eleventy) {
  // A line that runs out of its box is scrolled to by keyboard too.
  eleventy.addPlugin(syntaxHighlight, { preAttributes: { tabindex: 0 } });
  // Raw HTML stays off in Markdown: no text of a record or of a content page can put markup of its own into a page.
  eleventy.setLibrary('md', new MarkdownIt({ html: false }));
  // A number stays on the line of the word after it: a dose with its unit, a count with what is counted.
  eleventy.addNunjucksFilter('tied', (text) =>
    text.replace(/(?<=\p{N}) (?=[\p{L}%°¼½¾])/gu, '\u00a0'),
  );
  eleventy.setIncludesDirectory('../shared');
  eleventy.setDataDirectory('../shared');
  eleventy.setNunjucksEnvironmentOptions({
    autoescape: true,
    throwOnUndefined: true,
    trimBlocks: true,
    lstripBlocks: true,
  });
}
