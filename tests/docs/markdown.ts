import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import MarkdownIt from 'markdown-it';
import { root } from '../cli/thrice.js';

/** A fenced block of a page, with what stands directly before it. */
export interface Fence {
  readonly kind: string;
  readonly text: string;
  readonly line: number;
  /** The paragraph before it; empty where something else stands there. */
  readonly said: string;
}

/** A table of two columns, as pairs of its cells. */
export interface Pairs {
  readonly head: string;
  readonly pairs: readonly (readonly [string, string])[];
}

/** Every page whose commands are run: README, DEVELOPERS and docs. */
export const PAGES = [
  'README.md',
  'DEVELOPERS.md',
  ...readdirSync(join(root, 'docs'))
    .filter((name) => name.endsWith('.md'))
    .map((name) => `docs/${name}`),
];

const markdown = new MarkdownIt();

export function fencesOf(page: string): Fence[] {
  const tokens = markdown.parse(readFileSync(join(root, page), 'utf8'), {});
  return tokens.flatMap((token, index) =>
    token.type !== 'fence'
      ? []
      : [
          {
            kind: token.info.trim(),
            text: token.content,
            line: (token.map?.[0] ?? 0) + 1,
            said: tokens[index - 1]?.type === 'paragraph_close' ? tokens[index - 2]!.content : '',
          },
        ],
  );
}

/** The tables of a page that have two columns, their cells without the marks of code. */
export function tablesOf(page: string): Pairs[] {
  const cells = (row: string) =>
    row
      .split('|')
      .slice(1, -1)
      .map((cell) => cell.trim().replace(/^`([^`]*)`$/, '$1'));
  return [
    ...readFileSync(join(root, page), 'utf8').matchAll(/^\|.*\|\n\|[ :|-]+\|\n(?:\|.*\|\n)+/gm),
  ]
    .map(([table]) => table.trim().split('\n').map(cells))
    .filter(([head]) => head?.length === 2)
    .map(([head, , ...rows]) => ({
      head: head!.join(' | '),
      pairs: rows.map(([a, b]) => [a!, b!] as const),
    }));
}
