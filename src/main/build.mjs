// Builds the program into out/, and only when something that goes into it has changed.
// Plain JavaScript on purpose: this and start.mjs run before anything is built, on Nodes that cannot read TypeScript.
import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { readdir, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { join, relative } from 'node:path'
import process from 'node:process'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'

const root = join(import.meta.dirname, '..', '..')
const sources = ['src', 'shared', 'electron.vite.config.ts', 'package.json', 'package-lock.json', 'tsconfig.json']

/** All files under the given names, sorted, so that the same tree gives the same stamp on every machine. */
async function filesUnder(/** @type {string} */ path) {
  const entries = await readdir(path, { withFileTypes: true, recursive: true }).catch(() => null)
  if (entries === null) return [path]
  return entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name))
}

/** sha256 over names and contents of all that goes into the build. */
export async function sourceStamp() {
  const hash = createHash('sha256')
  for (const source of sources) {
    for (const file of (await filesUnder(join(root, source))).sort()) {
      const content = await readFile(file).catch(() => Buffer.alloc(0))
      hash.update(`${relative(root, file).replaceAll('\\', '/')}\0${content.length}\0`).update(content)
    }
  }
  return hash.digest('hex')
}

/** Runs the bundler into a folder of its own; rejects with what it said. */
function bundle(/** @type {string} */ folder) {
  const bundler = join(root, 'node_modules', 'electron-vite', 'bin', 'electron-vite.js')
  const words = [bundler, 'build', '--outDir', folder, '--logLevel', 'warn']
  return new Promise((done, failed) => {
    const child = spawn(process.execPath, words, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] })
    let said = ''
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (piece) => (said += piece))
    child.on('error', failed)
    child.on('close', (code) => (code === 0 ? done(said) : failed(new Error(`the build failed (${code})\n${said}`))))
  })
}

/** Puts a folder in another's place; tries again where a second build does the same at this moment. */
async function swap(/** @type {string} */ place, /** @type {string} */ fresh, /** @type {string} */ old) {
  for (let attempt = 1; ; attempt++) {
    try {
      await rm(old, { recursive: true, force: true })
      await rename(place, old).catch((error) => {
        if (error.code !== 'ENOENT') throw error
      })
      await rename(fresh, place)
      return
    } catch (error) {
      if (attempt === 5) throw error
      await pause(100 * attempt)
    }
  }
}

/**
 * Makes out/ fit the sources. A new build is made beside it and then put in its place, so that a program that starts
 * meanwhile never sees half of one.
 * @returns {Promise<boolean>} whether anything had to be built
 */
export async function buildIfNeeded() {
  const out = join(root, 'out')
  const stamp = await sourceStamp()
  const built = await readFile(join(out, 'built-from'), 'utf8').catch(() => '')
  if (built === stamp) return false
  const fresh = join(root, `out-${process.pid}`)
  const old = join(root, `out-${process.pid}-old`)
  try {
    await bundle(fresh)
    await writeFile(join(fresh, 'built-from'), stamp)
    await swap(out, fresh, old)
  } finally {
    await rm(fresh, { recursive: true, force: true })
    await rm(old, { recursive: true, force: true })
  }
  return true
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const built = await buildIfNeeded().catch((error) => {
    process.stderr.write(`${error.message}\n`)
    process.exitCode = 1
  })
  if (built === false) process.stdout.write('out is up to date\n')
}
