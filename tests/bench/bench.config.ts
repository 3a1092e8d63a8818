import { join } from 'node:path'
import { defineConfig } from 'vitest/config'

/** `npm run bench`: measures and prints; one file at a time, so that they do not slow each other down. */
export default defineConfig({
  root: join(import.meta.dirname, '..', '..'),
  test: {
    include: ['tests/bench/**/*.bench.ts'],
    reporters: ['verbose'],
    disableConsoleIntercept: true,
    fileParallelism: false,
    passWithNoTests: true,
    testTimeout: 600_000,
  },
})
