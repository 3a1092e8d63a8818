import { spawnSync } from 'node:child_process'
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { isBuiltin } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, join, relative, resolve } from 'node:path'
import { describe, expect, it } from 'vitest'
import { contract } from '../../src/main/contract.ts'

const root = join(import.meta.dirname, '..', '..')

interface Import {
  readonly file: string
  readonly to: string
  readonly typeOnly: boolean
}

/** Every import of the sources under a folder; a relative one as a path from the project's root. */
function importsOf(folder: string): Import[] {
  const files = readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
  return files
    .filter((file) => /\.(ts|tsx|mjs)$/.test(file))
    .flatMap((file) => {
      const path = join(root, folder, file)
      const text = readFileSync(path, 'utf8')
      const found = text.matchAll(/^(?:import|export)\s+(type\s)?(?:[^'";]*?\sfrom\s+)?'([^']+)'/gm)
      return Array.from(found, ([, type, to = '']) => ({
        file: relative(root, path).replaceAll('\\', '/'),
        to: to.startsWith('.') ? relative(root, resolve(dirname(path), to)).replaceAll('\\', '/') : to,
        typeOnly: type !== undefined,
      }))
    })
}

const seen = (imports: readonly Import[]): string[] => imports.map(({ file, to }) => `${file} → ${to}`)

/** Folders of the core from the ground up; a file may import its own folder and those before it. */
const STOREYS = [
  ['errors', 'units', 'control', 'zod'],
  ['words', 'messages'],
  ['materials', 'geometry'],
  ['boundary'],
  ['solver'],
  ['baking'],
  ['journey'],
  ['outcomes'],
  ['deciding'],
  ['choosing', 'sheet'],
  ['fitting'],
]

describe('imports', () => {
  it('of the core stay in the core, its data and zod', () => {
    const strange = importsOf('src/core').filter(({ to }) => !/^(src\/core\/|shared\/|zod$|ml-matrix$)/.test(to))
    expect(seen(strange)).toEqual([])
  })

  it('inside the core go downward only', () => {
    const storey = (path: string): number =>
      STOREYS.findIndex((names) => names.includes(path.split('/')[2]?.replace(/\.ts$/, '') ?? ''))
    const upward = importsOf('src/core').filter(({ file, to, typeOnly }) => {
      if (!to.startsWith('src/core/') || typeOnly) return false
      const [from, goal] = [storey(file), storey(to)]
      return from >= 0 && goal > from
    })
    expect(seen(upward)).toEqual([])
  })

  it('of the page reach main through its contract only, as types', () => {
    const toMain = importsOf('src/renderer').filter(({ to }) => to.startsWith('src/main/'))
    expect(toMain.length).toBeGreaterThan(0)
    expect(seen(toMain.filter(({ to, typeOnly }) => to !== 'src/main/contract.ts' || !typeOnly))).toEqual([])
  })

  it('of the page know neither Node nor Electron', () => {
    expect(seen(importsOf('src/renderer').filter(({ to }) => /^(node:|electron)/.test(to)))).toEqual([])
  })

  it('of main know nothing of the page, and Electron only where its window is', () => {
    const imports = importsOf('src/main')
    expect(seen(imports.filter(({ to }) => to.startsWith('src/renderer/')))).toEqual([])
    const users = new Set(imports.filter(({ to }) => to === 'electron').map(({ file }) => file))
    const window = ['index', 'preload', 'window', 'window-shell'].map((name) => `src/main/${name}.ts`)
    expect([...users].filter((file) => !window.includes(file))).toEqual([])
  })
})

describe('the build', () => {
  const built = (path: string): string => readFileSync(join(root, 'out', path), 'utf8')

  it('has a preload that needs nothing but electron', () => {
    const needed = Array.from(built('preload/preload.cjs').matchAll(/require\(["']([^"']+)["']\)/g), ([, name]) => name)
    expect(needed).toEqual(['electron'])
    expect(built('preload/preload.cjs')).not.toMatch(/^import /m)
  })

  it('names the same calls in preload and contract', () => {
    const list = built('preload/preload.cjs').match(/channels = \[([^\]]*)\]/)?.[1] ?? ''
    expect(Array.from(list.matchAll(/"(\w+)"/g), ([, name]) => name)).toEqual(Object.keys(contract))
  })

  it('needs no package at run time, and never Electron outside its window', () => {
    const files = readdirSync(join(root, 'out', 'main'), { recursive: true, encoding: 'utf8' })
    const needed = files
      .filter((file) => file.endsWith('.js'))
      .flatMap((file) =>
        Array.from(built(join('main', file)).matchAll(/^(?:import|export)\b[^'"]*?from ["']([^."'][^"']*)["']/gm)).map(
          ([, to]) => `${file} ${to}`,
        ),
      )
    expect(needed.length).toBeGreaterThan(0)
    expect(needed.filter((line) => !isBuiltin(line.split(' ')[1] ?? ''))).toEqual(['index.js electron'])
  })

  it('has a page without scripts or styles in its text, which its rules would refuse', () => {
    const page = built('renderer/index.html')
    expect(page).not.toMatch(/<script(?![^>]*\ssrc=)|<style|\sstyle=|\son\w+=/)
    expect(page).not.toMatch(/https?:/)
  })
})

describe('the repository', () => {
  it('has a lock without download addresses, made so by its own settings', () => {
    expect(readFileSync(join(root, 'package-lock.json'), 'utf8')).not.toContain('"resolved"')
    expect(readFileSync(join(root, '.npmrc'), 'utf8')).toMatch(/^omit-lockfile-registry-resolved=true$/m)
    expect(readFileSync(join(root, '.npmrc'), 'utf8')).not.toMatch(/engine-strict/)
  })

  it('pins every dependency to one version', () => {
    const { dependencies, devDependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as Record<
      'dependencies' | 'devDependencies',
      Record<string, string>
    >
    const loose = Object.entries({ ...dependencies, ...devDependencies }).filter(
      ([, wanted]) => !/^\d+\.\d+\.\d+$/.test(wanted),
    )
    expect(loose).toEqual([])
  })
})

describe('the fences', () => {
  it.each([
    [
      'src/core',
      {
        'Math.sqrt(2)': true,
        'document.title': false,
        'process.cwd()': false,
        'console.log(1)': false,
        'performance.now()': false,
        'setTimeout(() => undefined, 1)': false,
        'structuredClone({})': false,
      },
    ],
    ['src/renderer', { 'document.title': true, 'process.cwd()': false, "require('x')": false }],
    ['src/main', { 'process.cwd()': true, 'document.title': false, 'window.open()': false }],
  ])('do not compile what %s may not know', (folder, probes) => {
    const errors = compile(folder, Object.keys(probes))
    const passed = Object.keys(probes).map((line, index) => [line, !errors.includes(`probe-${index}.ts(`)])
    expect(Object.fromEntries(passed)).toEqual(probes)
    expect(errors.replaceAll(/^.*error TS(2304|2580|2584|2591): Cannot find name.*\n?/gm, '')).toBe('')
  })

  it('do not pass the lint with a forbidden import, `any`, a default export', () => {
    const probes: readonly [folder: string, text: string, rule: string | null][] = [
      ['src/core', 'export const a = 1', null],
      ['src/core', "import { useState } from 'react'\nexport const a = useState", 'noRestrictedImports'],
      ['src/core', "import { rm } from 'node:fs'\nexport const a = rm", 'noRestrictedImports'],
      ['src/core', "import { app } from 'electron'\nexport const a = app", 'noRestrictedImports'],
      ['src/core', "import { a } from '../main/store.ts'\nexport const b = a", 'noRestrictedImports'],
      ['src/core', "import { a } from '../renderer/bridge.ts'\nexport const b = a", 'noRestrictedImports'],
      ['src/core', 'export const a: any = 1', 'noExplicitAny'],
      ['src/renderer', "import type { Channel } from '../main/contract.ts'\nexport type A = Channel", null],
      ['src/renderer', "import { a } from '../main/store.ts'\nexport const b = a", 'noRestrictedImports'],
      ['src/renderer', "import { app } from 'electron'\nexport const a = app", 'noRestrictedImports'],
      ['src/renderer', "import { rm } from 'node:fs'\nexport const a = rm", 'noRestrictedImports'],
      ['src/main', "import { a } from '../renderer/bridge.ts'\nexport const b = a", 'noRestrictedImports'],
      ['src/main', 'export default 1', 'noDefaultExport'],
      ['src/main', 'console.log(1)', 'noConsole'],
    ]
    const found = lint(probes.map(([folder, text]) => ({ folder, text })))
    expect(found).toEqual(probes.map(([, , rule]) => (rule === null ? [] : [rule])))
  })
})

/** What the compiler says of some lines, each in a file of its own, under a folder's own settings. */
function compile(folder: string, lines: readonly string[]): string {
  const place = mkdtempSync(join(root, 'node_modules', '.probe-'))
  try {
    const files = lines.map((_line, index) => `probe-${index}.ts`)
    const settings = { extends: join(root, folder, 'tsconfig.json'), files, include: [] }
    writeFileSync(join(place, 'tsconfig.json'), JSON.stringify(settings))
    for (const [index, file] of files.entries()) {
      writeFileSync(join(place, file), `export const a = ${lines[index]}\n`)
    }
    const compiler = join(root, 'node_modules', 'typescript', 'bin', 'tsc')
    return spawnSync(process.execPath, [compiler, '-p', place, '--pretty', 'false'], { encoding: 'utf8' }).stdout
  } finally {
    rmSync(place, { recursive: true, force: true })
  }
}

interface LintReport {
  readonly diagnostics: readonly { readonly category: string; readonly location: { readonly path: string } }[]
}

/** The rules that each of some files breaks, under the project's own settings. */
function lint(probes: readonly { readonly folder: string; readonly text: string }[]): string[][] {
  const place = mkdtempSync(join(tmpdir(), 'thickset-test-'))
  try {
    copyFileSync(join(root, 'biome.json'), join(place, 'biome.json'))
    const files = probes.map(({ folder }, index) => `${folder}/probe-${index}.ts`)
    for (const [index, { folder, text }] of probes.entries()) {
      mkdirSync(join(place, folder), { recursive: true })
      writeFileSync(join(place, `${folder}/probe-${index}.ts`), `${text}\n`)
    }
    const linter = join(root, 'node_modules', '@biomejs', 'biome', 'bin', 'biome')
    const words = [linter, 'lint', '--vcs-enabled=false', '--reporter=json', '--max-diagnostics=200', '.']
    const { stdout } = spawnSync(process.execPath, words, { cwd: place, encoding: 'utf8' })
    const { diagnostics } = JSON.parse(stdout) as LintReport
    return files.map((file) =>
      diagnostics
        .filter(({ location }) => location.path.replaceAll('\\', '/').endsWith(file))
        .map(({ category }) => category.split('/').pop() ?? ''),
    )
  } finally {
    rmSync(place, { recursive: true, force: true })
  }
}
