import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: 'tests/demo-folder.ts',
    // Every clinical date carries its own zone; a machine zone far from the demo clinic's shows what leaks in.
    env: { TZ: 'Pacific/Auckland' },
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
