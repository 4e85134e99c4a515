import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const shared = {
  root: fileURLToPath(new URL('..', import.meta.url)),
  env: { FORCE_COLOR: '0', TZ: 'Europe/Rome', NODE_ENV: 'test' },
  setupFiles: ['test/help/seed.ts'],
};

export default defineConfig({
  test: {
    root: shared.root,
    projects: [
      {
        test: {
          ...shared,
          name: 'fast',
          include: ['test/**/*.test.{ts,tsx}'],
          exclude: ['test/terminal/**', 'test/soak/**'],
          testTimeout: 60_000,
          // Nothing else runs meanwhile; left to itself vitest keeps one core free.
          maxWorkers: '100%',
          sequence: { groupOrder: 0 },
        },
      },
      {
        test: {
          ...shared,
          name: 'terminal',
          include: ['test/terminal/**/*.test.{ts,tsx}'],
          fileParallelism: false,
          sequence: { groupOrder: 1 },
          testTimeout: 120_000,
        },
      },
    ],
  },
});
