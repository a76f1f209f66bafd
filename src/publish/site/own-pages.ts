import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { markdownBlocks } from '../../words/markdown.js';
import { house } from '../house.js';
import type { ReadPage } from './site.js';

/** A page that no case has a part in, as it is written in Markdown beside the words of its language. */
export interface OwnPage extends ReadPage {
  readonly section: (typeof SECTIONS)[number];
  /** Markdown without what stands above it. */
  readonly text: string;
  readonly bytes: Uint8Array;
}

const SECTIONS = ['guide', 'privacy'] as const;

/** The guide for authors and the page on what is public, in each language that has them. */
export function ownPages(content = house.content): OwnPage[] {
  return readdirSync(content).flatMap((language) =>
    SECTIONS.flatMap((section) => {
      const source = join(content, language, `${section}.md`);
      if (!existsSync(source)) return [];
      const bytes = readFileSync(source);
      const [, front = '', text = ''] =
        /^---\n([\s\S]*?)\n---\n([\s\S]*)$/.exec(bytes.toString()) ?? [];
      const { title, lead, file } = parse(front) as Record<'title' | 'lead' | 'file', string>;
      const blocks = markdownBlocks(text);
      return [{ section, language, title, lead, file, text, bytes, blocks }];
    }),
  );
}
