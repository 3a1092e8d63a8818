import { join } from 'node:path'
import { defineConfig } from 'vitest/config'

const root = join(import.meta.dirname, '..', '..')

/** `npm run test:electron`: the only tests that need Electron's runtime; not part of `npm test`. */
export default defineConfig({
  root,
  test: {
    include: ['tests/electron/**/*.test.ts'],
    reporters: ['default', join(root, 'tests', 'support', 'closing-line.ts')],
    globalSetup: [join(root, 'tests', 'support', 'build-once.ts')],
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
})
