import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import Eleventy from '@11ty/eleventy';
import type MarkdownIt from 'markdown-it';
import { house } from '../house.js';
import { anchors } from './anchors.js';

/** The pages that one folder of templates/ makes. */
export interface PageSet {
  readonly templates: 'owner' | 'clinic' | 'teaching' | 'record' | 'site' | 'library' | 'docs';
  /** What the templates show, by name. */
  readonly data: Readonly<Record<string, unknown>>;
  /** Markdown pages beside them: their text, where they go and what their layout needs. */
  readonly pages: readonly {
    readonly text: string;
    readonly permalink: string;
    readonly data: Readonly<Record<string, unknown>>;
  }[];
  /** What else becomes of the Markdown. */
  readonly amend?: (library: Library) => void;
}

export type Library = InstanceType<typeof MarkdownIt>;

interface UserConfig {
  addGlobalData: (name: string, value: unknown) => void;
  addTemplate: (path: string, content: string, data: object) => void;
  amendLibrary: (name: string, amend: (library: Library) => void) => void;
}

/** Writes pages into a folder. */
export async function writePages(set: PageSet, folder: string): Promise<void> {
  const { default: pages } = (await import(pathToFileURL(house.eleventyConfig).href)) as {
    default: (config: UserConfig) => void;
  };
  const eleventy = new Eleventy(join(house.templates, set.templates), folder, {
    quietMode: true,
    configPath: false,
    config: (config: UserConfig) => {
      pages(config);
      config.amendLibrary('md', giveHeadingsIds);
      if (set.amend) config.amendLibrary('md', set.amend);
      for (const [name, value] of Object.entries(set.data)) config.addGlobalData(name, value);
      for (const { permalink, text, data } of set.pages) {
        config.addTemplate(`${permalink}.md`, text, { ...data, permalink });
      }
    },
  });
  eleventy.disableLogger();
  await eleventy.write();
}

/** Headings of a Markdown page get the ids that those of a handout have. */
function giveHeadingsIds(library: Library): void {
  library.core.ruler.push('heading ids', ({ tokens }) => {
    const anchor = anchors();
    tokens.forEach((token, index) => {
      if (token.type !== 'heading_open') return;
      const inline = tokens[index + 1]?.children ?? [];
      token.attrSet('id', anchor(inline.map(({ content }) => content).join('')));
    });
  });
}
