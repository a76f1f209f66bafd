import { join, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import type Eleventy from '@11ty/eleventy';
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
  amendLibrary: (name: string, amend: (library: never) => void) => void;
  setLibrary: (name: string, library: unknown) => void;
  benchmarks: { config: { setMinimumThresholdMs: (least: number) => void } };
}

/** Writes pages into a folder. */
export async function writePages({ data, ...set }: PageSet, folder: string): Promise<void> {
  const held = { data };
  await (await printer(set, held, folder)).write();
  held.data = {};
}

/** The same pages by their paths, nothing written. */
export async function renderPages({ data, ...set }: PageSet): Promise<Map<string, string>> {
  const held = { data };
  const pages = await (await printer(set, held, NOWHERE)).toJSON();
  held.data = {};
  return new Map(pages.map(({ outputPath, content }) => [relative(NOWHERE, outputPath), content]));
}

/** Stands for a folder where none is written to. */
const NOWHERE = join(house.root, 'nowhere');

/** What the templates show, until they have shown it: the printer's own caches outlive it, and would keep every page of a run. */
interface Held {
  data: PageSet['data'];
}

async function printer(
  set: Omit<PageSet, 'data'>,
  held: Held,
  folder: string,
): Promise<InstanceType<typeof Eleventy>> {
  const { default: pages } = (await import(pathToFileURL(house.eleventyConfig).href)) as {
    default: (config: UserConfig) => void;
  };
  // It takes half a second to read, which a build that changes nothing need not wait for.
  const { default: Printer } = await import('@11ty/eleventy');
  const eleventy = new Printer(join(house.templates, set.templates), folder, {
    quietMode: true,
    configPath: false,
    config: (config: UserConfig) => {
      pages(config);
      config.amendLibrary('md', giveHeadingsIds);
      keepCompiled(set.templates, config);
      // On a busy machine it would tell the terminal how long our filters took; none of that is the user's.
      config.benchmarks.config.setMinimumThresholdMs(0);
      if (set.amend) config.amendLibrary('md', set.amend);
      for (const name of Object.keys(held.data)) config.addGlobalData(name, () => held.data[name]);
      for (const { permalink, text, data } of set.pages) {
        config.addTemplate(`${permalink}.md`, text, { ...data, permalink });
      }
    },
  });
  eleventy.disableLogger();
  return eleventy;
}

const compiled = new Map<PageSet['templates'], unknown>();

/** Templates are compiled once in a run of the program, which takes longer than to fill them in. */
function keepCompiled(templates: PageSet['templates'], config: UserConfig): void {
  const known = compiled.get(templates);
  if (known) config.setLibrary('njk', known);
  else config.amendLibrary('njk', (environment: unknown) => compiled.set(templates, environment));
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
