// `npm start`: builds what has changed, then hands over to the built launcher.
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import process from 'node:process'
import { pathToFileURL } from 'node:url'
import { buildIfNeeded } from './build.mjs'

const root = join(import.meta.dirname, '..', '..')

try {
  if (!existsSync(join(root, 'node_modules', 'electron-vite'))) throw new Error('Run `npm ci` first.')
  await buildIfNeeded()
  const { launch } = await import(pathToFileURL(join(root, 'out', 'main', 'launch.js')).href)
  // Some sockets of a fetch that was given up may linger; nothing is left to wait for.
  process.exit(await launch(root, process.argv.slice(2)))
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : error}\n`)
  process.exit(1)
}
