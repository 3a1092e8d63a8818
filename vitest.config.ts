import { join } from 'node:path'
import { defineConfig } from 'vitest/config'

const here = (path: string): string => join(import.meta.dirname, path)
const suite = (name: string) => ({ name, include: [`tests/${name}/**/*.test.ts`, `tests/${name}/**/*.test.tsx`] })
/** A real `import 'electron'` outside Electron starts a download; the alias makes that impossible. */
const withoutElectron = { resolve: { alias: { electron: here('tests/main/recording-fake.ts') } } }
const builds = { globalSetup: [here('tests/support/build-once.ts')] }

export default defineConfig({
  test: {
    reporters: ['default', here('tests/support/closing-line.ts')],
    projects: [
      { test: { ...suite('unit') } },
      { test: { ...suite('physics'), testTimeout: 60_000 } },
      { test: { ...suite('reference'), testTimeout: 120_000 } },
      { ...withoutElectron, test: { ...suite('main'), ...builds, testTimeout: 60_000 } },
      {
        ...withoutElectron,
        test: { ...suite('browser'), ...builds, testTimeout: 60_000, hookTimeout: 60_000, fileParallelism: false },
      },
    ],
  },
})
