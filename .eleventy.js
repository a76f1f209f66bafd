import syntaxHighlight from '@11ty/eleventy-plugin-syntaxhighlight';
import MarkdownIt from 'markdown-it';

/** The languages of the examples. */
const HIGHLIGHTED = new Set(['csv', 'sh', 'yaml']);

const { escapeHtml } = new MarkdownIt().utils;

/** How the pages are put together; `src/publish/html/write-pages.ts` supplies what they say. */
export default function pages(eleventy) {
  // A line that runs out of its box is scrolled to by keyboard too.
  eleventy.addPlugin(syntaxHighlight, { preAttributes: { tabindex: 0 } });
  // Raw HTML stays off in Markdown: no text of a record or of a content page can put markup of its own into a page.
  const markdown = new MarkdownIt({ html: false });
  // The plugin prints a block of a language that it does not know, and `text`, as it is: such a one comes to it encoded.
  markdown.core.ruler.push('plain text blocks', ({ tokens }) => {
    for (const token of tokens) {
      const [language] = token.info.trim().split(/[\s/]/);
      if (token.type !== 'fence' || language === '' || HIGHLIGHTED.has(language)) continue;
      token.info = 'text';
      token.content = escapeHtml(token.content);
    }
  });
  eleventy.setLibrary('md', markdown);
  // A page says thousands of things, and a macro would take as long for them as for the rest of the page.
  eleventy.addNunjucksFilter('runs', ({ runs }) => runs.map(inline).join(''));
  eleventy.addNunjucksFilter('facts', ({ facts }) =>
    facts.length > 0 ? ` data-facts="${escapeHtml(facts.join(' '))}"` : '',
  );
  // Data for a script to read: a `<` in it cannot end the element that it stands in.
  eleventy.addNunjucksFilter('data', (value) => JSON.stringify(value).replaceAll('<', '\\u003c'));
  eleventy.setIncludesDirectory('../shared');
  eleventy.setDataDirectory('../shared');
  eleventy.setNunjucksEnvironmentOptions({
    autoescape: true,
    throwOnUndefined: true,
    trimBlocks: true,
    lstripBlocks: true,
  });
}

/** A run of a sentence as HTML. */
function inline({ text, strong, emphasis, code, href }) {
  let html = escapeHtml(tied(text));
  if (code) html = `<code>${html}</code>`;
  if (emphasis) html = `<em>${html}</em>`;
  if (strong) html = `<strong>${html}</strong>`;
  return href ? `<a href="${escapeHtml(href)}" rel="noopener">${html}</a>` : html;
}

/** A number stays on the line of the word after it: a dose with its unit, a count with what is counted. */
const tied = (text) => text.replace(/(?<=\p{N}) (?=[\p{L}%°¼½¾])/gu, '\u00a0');
