import { describe, expect, it } from 'vitest';
import type { Library } from '../../src/publish/html/write-pages.js';

// Written in JavaScript, as Eleventy asks for it.
const { default: pages } = await import(new URL('../../.eleventy.js', import.meta.url).href);

/** The Markdown of the pages with the plugin's own highlighter, as Eleventy joins the two. */
function markdown(): Library {
  let library: Library | null = null;
  let highlight: ((code: string, language: string) => string) | null = null;
  const calls: Record<string, (...words: never[]) => void> = {
    addPlugin: (plugin: (config: unknown, options: unknown) => void, options: unknown) =>
      plugin(config, options),
    setLibrary: (_: string, made: Library) => {
      library = made;
    },
    addMarkdownHighlighter: (made: typeof highlight) => {
      highlight = made;
    },
  };
  const config = new Proxy({}, { get: (_, name) => calls[String(name)] ?? (() => undefined) });
  pages(config);
  return (library as unknown as Library).set({ highlight });
}

describe('a block of code in Markdown', () => {
  it.each(['', 'text', 'text/2', 'html', 'unheard-of', 'yaml', 'csv', 'sh', 'sh title=x'])(
    'puts no markup of its own into the page, language "%s"',
    (language) => {
      const page = markdown().render(`\`\`\`${language}\n<b onclick=alert(1)>a & b</b>\n\`\`\`\n`);
      expect(page).not.toContain('<b');
      const said = page
        .replace(/<[^>]+>/g, '')
        .replaceAll('&lt;', '<')
        .replaceAll('&gt;', '>');
      expect(said.replaceAll('&amp;', '&').trim()).toBe('<b onclick=alert(1)>a & b</b>');
    },
  );

  it('has its language highlighted where it is one of the examples', () => {
    expect(markdown().render('```yaml\na: 1\n```\n')).toContain('class="token');
  });
});
