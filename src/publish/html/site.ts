import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import Eleventy from '@11ty/eleventy';
import { house } from '../house.js';

/** The pages that one folder of templates/ makes. */
export interface PageSet {
  readonly templates: 'owner' | 'teaching' | 'record' | 'library';
  /** What the templates show, by name. */
  readonly data: Readonly<Record<string, unknown>>;
  /** Markdown pages beside them: where they come from and where they go. */
  readonly pages: readonly { readonly file: string; readonly permalink: string }[];
}

interface UserConfig {
  addGlobalData: (name: string, value: unknown) => void;
  addTemplate: (path: string, content: string, data: object) => void;
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
      for (const [name, value] of Object.entries(set.data)) config.addGlobalData(name, value);
      for (const page of set.pages) {
        config.addTemplate(`${page.permalink}.md`, readFileSync(page.file, 'utf8'), {
          permalink: page.permalink,
        });
      }
    },
  });
  eleventy.disableLogger();
  await eleventy.write();
}
