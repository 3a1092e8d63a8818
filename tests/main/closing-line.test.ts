import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'

const root = join(import.meta.dirname, '..', '..')
let folder: string

// Inside the project, so that `vitest` is found from there.
beforeEach(() => {
  folder = mkdtempSync(join(root, 'node_modules', '.probe-'))
})
afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

/** The last line and exit code of a run over some files. */
function run(files: Record<string, string>, settings = ''): [line: string | undefined, code: number | null] {
  const reporter = JSON.stringify(join(root, 'tests', 'support', 'closing-line.ts'))
  const config = `export default { test: { exclude: [], reporters: ['default', ${reporter}], ${settings} } }`
  for (const [name, text] of Object.entries({ ...files, 'vitest.config.mjs': config })) {
    writeFileSync(join(folder, name), text)
  }
  const words = [join(root, 'node_modules', 'vitest', 'vitest.mjs'), 'run', '--root', folder]
  const { stdout, status } = spawnSync(process.execPath, words, { encoding: 'utf8' })
  return [stdout.split('\n').at(-2), status]
}

const test = (body: string): string => `import { expect, it } from 'vitest'\n${body}`

it('counts passed, failed, skipped, and a file that could not be loaded', () => {
  const files = {
    'a.test.mjs': test("it('a', () => {}); it('b', () => {}); it.skip('c', () => {})"),
    'b.test.mjs': test("it('a', () => expect(1).toBe(2))"),
    'c.test.mjs': test("import './none.mjs'\nit('a', () => {})"),
  }
  expect(run(files)).toEqual(['2 passed, 2 failed, 1 skipped', 1])
})

it('says nothing of skipped ones where there are none', () => {
  expect(run({ 'a.test.mjs': test("it('a', () => {})") })).toEqual(['1 passed, 0 failed', 0])
})

it('counts what fails outside the tests', () => {
  const late = "setTimeout(() => { throw new Error('late') }, 1); it('a', () => new Promise((d) => setTimeout(d, 200)))"
  expect(run({ 'a.test.mjs': test(late) })).toEqual(['1 passed, 1 failed', 1])
  expect(run({ 'a.test.mjs': test("it('a', () => {})") }, "globalSetup: ['none.mjs']")[0]).toBe('0 passed, 1 failed')
  rmSync(join(folder, 'a.test.mjs'))
  expect(run({})).toEqual(['0 passed, 1 failed', 1])
})
