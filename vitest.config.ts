import { defineConfig } from 'vitest/config';

/** Each of these has a process to itself: the first three replace modules of the program, the others weigh its memory. */
const ALONE = [
  'publish/wall',
  'publish/mutated-build',
  'publish/write-whole',
  'signal/cost',
  'fuzz/fuzz',
].map((name) => `tests/${name}.test.ts`);

export default defineConfig({
  test: {
    globalSetup: 'tests/demo-folder.ts',
    // Every clinical date carries its own zone; a machine zone far from the demo clinic's shows what leaks in.
    env: { TZ: 'Pacific/Auckland' },
    testTimeout: 60_000,
    hookTimeout: 120_000,
    // As many as processors; vitest by itself leaves one of them idle.
    maxWorkers: '100%',
    projects: [
      {
        extends: true,
        test: { name: 'alone', include: ALONE },
      },
      {
        extends: true,
        test: {
          name: 'together',
          include: ['tests/**/*.test.ts'],
          exclude: ALONE,
          // The program is loaded once a worker, not once a file: that was most of what the tests cost.
          isolate: false,
        },
      },
    ],
  },
});
