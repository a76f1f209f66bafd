import { fileURLToPath } from 'node:url';
import { defineConfig } from 'rolldown';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

/**
 * A page opened from a folder may not import modules, so each entry becomes one classic script.
 * What is bundled is named in the page's list of scripts (`publish/html/scripts.ts`).
 */
export default defineConfig(
  ['case', 'site', 'search', 'preview'].map((entry) => ({
    input: here(`${entry}.ts`),
    platform: 'browser',
    tsconfig: here('tsconfig.json'),
    output: { file: here(`../../dist/live/${entry}.js`), format: 'iife', minify: true },
  })),
);
