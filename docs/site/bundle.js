import { fileURLToPath } from 'node:url';
import { defineConfig } from 'rolldown';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

/** One file, two folders down like those of the program: it finds pages and templates from where it lies. */
export default defineConfig({
  input: here('main.ts'),
  platform: 'node',
  external: /^[^./]/,
  output: { file: here('../../.thrice-docs/bundle/main.js'), format: 'esm' },
});
