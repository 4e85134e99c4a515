import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Hours rather than seconds: `npm run soak`. Nothing of it belongs to the suite. */
export default defineConfig({
  test: {
    root: fileURLToPath(new URL('../..', import.meta.url)),
    env: { FORCE_COLOR: '0', TZ: 'Europe/Rome', NODE_ENV: 'test' },
    include: ['test/soak/**/*.test.{ts,tsx}'],
    fileParallelism: false,
    testTimeout: 4 * 3_600_000,
  },
});
