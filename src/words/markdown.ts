import MarkdownIt from 'markdown-it';
import type { Block, Run, Said } from './handout.js';

/**
 * Raw HTML stays off: a record can never put markup of its own into a page. Tables stay off too, as no block here could
 * hold one: their text is then kept as it was written rather than lost.
 */
const markdown = new MarkdownIt({ html: false, linkify: false, typographer: false }).disable(
  'table',
);

type Token = ReturnType<typeof markdown.parse>[number];

/** Escapes every character that Markdown could take for markup. */
export const literally = (text: string): string =>
  text.replace(/[\\`*_{}[\]()#+\-.!~|<>&]/g, '\\$&');

/** One line of Markdown to runs of text. */
export function inlineRuns(text: string): Run[] {
  return markdown.parseInline(text, {}).flatMap((token) => runsOf(token.children ?? []));
}

/** A passage of plain text. */
export const plain = (text: string, ...facts: readonly string[]): Said => ({
  runs: [{ text }],
  facts,
});

/** A Markdown text to blocks: headings (two levels), paragraphs, lists, quotes as notes, code. */
export function markdownBlocks(text: string): Block[] {
  return blocksOf(markdown.parse(text, {}));
}

function blocksOf(tokens: readonly Token[]): Block[] {
  const blocks: Block[] = [];
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index] as Token;
    const inline = () => runsOf(tokens[index + 1]?.children ?? []);
    if (token.type === 'heading_open') {
      const level = token.tag === 'h1' || token.tag === 'h2' ? 2 : 3;
      blocks.push({
        kind: 'heading',
        level,
        text: inline()
          .map((run) => run.text)
          .join(''),
      });
    } else if (token.type === 'paragraph_open') {
      blocks.push({ kind: 'paragraph', said: { runs: inline(), facts: [] } });
    } else if (token.type === 'bullet_list_open' || token.type === 'ordered_list_open') {
      const end = closing(tokens, index);
      const items = itemsOf(tokens.slice(index + 1, end));
      blocks.push({ kind: 'list', ordered: token.type === 'ordered_list_open', items });
      index = end;
    } else if (token.type === 'blockquote_open') {
      const end = closing(tokens, index);
      const said = blocksOf(tokens.slice(index + 1, end)).flatMap(saidIn);
      blocks.push({ kind: 'callout', tone: 'note', title: '', said });
      index = end;
    } else if (token.type === 'fence' || token.type === 'code_block') {
      blocks.push({ kind: 'code', text: token.content.trimEnd(), language: token.info.trim() });
    }
  }
  return blocks;
}

/** Index of the token that closes the one at `open`. */
function closing(tokens: readonly Token[], open: number): number {
  const { type, level } = tokens[open] as Token;
  const close = type.replace('_open', '_close');
  return tokens.findIndex(
    (token, index) => index > open && token.type === close && token.level === level,
  );
}

/** The text of each list item; what stands in a nested list joins its item. */
function itemsOf(tokens: readonly Token[]): Said[] {
  const items: Said[] = [];
  for (let index = 0; index < tokens.length; index++) {
    if (tokens[index]?.type !== 'list_item_open') continue;
    const end = closing(tokens, index);
    const said = blocksOf(tokens.slice(index + 1, end)).flatMap(saidIn);
    items.push({ runs: joined(said), facts: [] });
    index = end;
  }
  return items;
}

function saidIn(block: Block): Said[] {
  if (block.kind === 'paragraph') return [block.said];
  if (block.kind === 'list') return [...block.items];
  if (block.kind === 'callout') return [...block.said];
  if (block.kind === 'heading' || block.kind === 'code') return [plain(block.text)];
  return [];
}

function joined(said: readonly Said[]): Run[] {
  return said.flatMap(({ runs }, index) => (index === 0 ? runs : [{ text: ' ' }, ...runs]));
}

function runsOf(tokens: readonly Token[]): Run[] {
  const runs: Run[] = [];
  let strong = false;
  let emphasis = false;
  let href: string | null = null;
  for (const token of tokens) {
    if (token.type === 'strong_open' || token.type === 'strong_close') strong = token.nesting === 1;
    else if (token.type === 'em_open' || token.type === 'em_close') emphasis = token.nesting === 1;
    else if (token.type === 'link_open') href = String(token.attrGet('href') ?? '');
    else if (token.type === 'link_close') href = null;
    else {
      const text = token.type === 'softbreak' || token.type === 'hardbreak' ? ' ' : token.content;
      if (text === '') continue;
      runs.push({
        text,
        ...(strong && { strong: true as const }),
        ...(emphasis && { emphasis: true as const }),
        ...(token.type === 'code_inline' && { code: true as const }),
        ...(href !== null && { href }),
      });
    }
  }
  return runs;
}
