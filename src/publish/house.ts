import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of the product itself, where content/ and templates/ live. */
const root = fileURLToPath(new URL('../..', import.meta.url));

export const house = {
  root,
  content: join(root, 'content'),
  templates: join(root, 'templates'),
  eleventyConfig: join(root, '.eleventy.js'),
  /** The scripts of the pages, bundled. */
  live: join(root, 'dist', 'live'),
  caseSchema: join(root, 'demo-data', 'schema', 'case.schema.json'),
  packageFile: join(root, 'package.json'),
} as const;
