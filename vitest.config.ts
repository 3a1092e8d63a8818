import { join } from 'node:path'
import { defineConfig } from 'vitest/config'

const here = (path: string): string => join(import.meta.dirname, path)
const suite = (name: string) => ({ name, include: [`tests/${name}/**/*.test.ts`, `tests/${name}/**/*.test.tsx`] })
/** A real `import 'electron'` outside Electron starts a download; the alias makes that impossible. */
const withoutElectron = { resolve: { alias: { electron: here('tests/main/recording-fake.ts') } } }
/** The core is pure: its tests may share what has been loaded. */
const shared = { isolate: false } as const
/** Tests that put something in the place of a module of the core, which no other test may see. */
const alone = [
  'tests/unit/geometry/new-shape.test.ts',
  'tests/unit/outcomes/rule-as-data.test.ts',
  'tests/unit/outcomes/target-as-file.test.ts',
  'tests/unit/plan/content-policy.test.ts',
]
/** Many journeys drawn at random, and whole plans searched, fitted and told: too long for a quick look, so `npm run check` leaves them out. */
const long = [
  'baking',
  'baking-forecast',
  'choosing',
  'closed-cycles',
  'currents',
  'fit-coverage',
  'fitting',
  'from-now',
  'giant-plans',
  'half-round-two-days',
  'held-heat',
  'overloaded-freezer',
  'random-draws',
  'random-journeys',
  'shown-in-examples',
  'stronger-cooling',
  'times-banded',
].map((name) => `tests/physics/${name}.test.ts`)
const builds = { globalSetup: [here('tests/support/build-once.ts')] }

export default defineConfig({
  test: {
    // All cores: the usual one less leaves half of a small machine idle.
    maxWorkers: '100%',
    reporters: ['default', here('tests/support/closing-line.ts')],
    projects: [
      { test: { ...suite('unit'), ...shared, exclude: alone } },
      { test: { name: 'unit-alone', include: alone } },
      { test: { ...suite('physics'), ...shared, exclude: long, testTimeout: 60_000 } },
      { test: { name: 'long', include: long, ...shared, testTimeout: 300_000 } },
      { test: { ...suite('reference'), ...shared, testTimeout: 120_000 } },
      { ...withoutElectron, test: { ...suite('main'), ...builds, testTimeout: 60_000 } },
      { ...withoutElectron, test: { ...suite('fuzz') } },
      { ...withoutElectron, test: { ...suite('browser'), ...builds, testTimeout: 60_000, hookTimeout: 60_000 } },
    ],
  },
})
