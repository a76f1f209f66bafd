import { describe, expect, it } from 'vitest';
import type { Block, Run } from '../../src/words/handout.js';
import { inlineRuns, markdownBlocks } from '../../src/words/markdown.js';

const textOf = (runs: readonly Run[]) => runs.map(({ text }) => text).join('');

/** Blocks with their runs joined to text. */
const outline = (text: string) =>
  markdownBlocks(text).map((block: Block) => {
    switch (block.kind) {
      case 'paragraph':
        return ['paragraph', textOf(block.said.runs)];
      case 'list':
        return [block.ordered ? 'ordered' : 'list', ...block.items.map(({ runs }) => textOf(runs))];
      case 'callout':
        return [block.tone, ...block.said.map(({ runs }) => textOf(runs))];
      case 'heading':
        return [`h${block.level}`, block.text];
      case 'code':
        return ['code', block.language, block.text];
      default:
        return [block.kind];
    }
  });

describe('a Markdown text', () => {
  it('has headings of two levels', () => {
    expect(outline('# One\n## Two\n### Three\n###### Six *soft*')).toEqual([
      ['h2', 'One'],
      ['h2', 'Two'],
      ['h3', 'Three'],
      ['h3', 'Six soft'],
    ]);
  });

  it('joins the lines of a paragraph', () => {
    expect(outline('One\ntwo.\n\nThree  \nfour.')).toEqual([
      ['paragraph', 'One two.'],
      ['paragraph', 'Three four.'],
    ]);
  });

  it('has lists, tight or loose, ordered or not', () => {
    expect(outline('- a\n- b\n\ntext\n\n1. c\n\n2. d')).toEqual([
      ['list', 'a', 'b'],
      ['paragraph', 'text'],
      ['ordered', 'c', 'd'],
    ]);
  });

  it('keeps the words of a nested list in its item', () => {
    expect(outline('- a\n  - b\n    - c\n- d')).toEqual([['list', 'a b c', 'd']]);
  });

  it('has quotes as notes, with all that stands in them', () => {
    expect(outline('> a\n>\n> - b\n> - c\n>\n> > d')).toEqual([['note', 'a', 'b', 'c', 'd']]);
    expect(outline('- a\n  > b')).toEqual([['list', 'a b']]);
  });

  it('has code with its language', () => {
    expect(outline('```csv\na,b\n```')).toEqual([['code', 'csv', 'a,b']]);
  });

  it('keeps the words of a table, which it has no block for', () => {
    expect(outline('| a | b |\n| --- | --- |\n| c | d |')).toEqual([
      ['paragraph', '| a | b | | --- | --- | | c | d |'],
    ]);
  });

  it('takes HTML for text', () => {
    expect(outline('<script>alert(1)</script>\n\nx <b onclick="y">z</b>')).toEqual([
      ['paragraph', '<script>alert(1)</script>'],
      ['paragraph', 'x <b onclick="y">z</b>'],
    ]);
  });

  it('loses no word, whatever stands in what', () => {
    const text =
      '# a\n\n> b\n> 1. c\n>    - d\n\n- e\n\n  > f\n\n  ```\n  g\n  ```\n\n| h |\n| - |\n| i |';
    expect(outline(text).flat().join(' ')).toMatch(/a.*b.*c.*d.*e.*f.*g.*h.*i/s);
  });
});

describe('a line of Markdown', () => {
  it('has strong, soft and code runs, also one in the other', () => {
    expect(inlineRuns('a **b *c* d** `e`')).toEqual([
      { text: 'a ' },
      { text: 'b ', strong: true },
      { text: 'c', strong: true, emphasis: true },
      { text: ' d', strong: true },
      { text: ' ' },
      { text: 'e', code: true },
    ]);
  });

  it('has links with their address', () => {
    expect(inlineRuns('[a **b**](https://a.example/x?y=1)')).toEqual([
      { text: 'a ', href: 'https://a.example/x?y=1' },
      { text: 'b', strong: true, href: 'https://a.example/x?y=1' },
    ]);
  });

  it.each([
    '[a](javascript:alert(1))',
    '[a](JaVaScRiPt:alert(1))',
    '[a](&#106;avascript:alert(1))',
    '[a](vbscript:x)',
    '[a](file:///etc/passwd)',
    '[a](data:text/html,x)',
    '<javascript:alert(1)>',
  ])('refuses the link %s', (text) => {
    expect(inlineRuns(text).filter(({ href }) => href !== undefined)).toEqual([]);
  });

  it('makes no link of a bare address', () => {
    expect(inlineRuns('see https://a.example')).toEqual([{ text: 'see https://a.example' }]);
  });
});
