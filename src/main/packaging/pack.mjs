// `npm run pack`: makes the packages of this system out of the built program; words after `--` go to the packer.
// The packer and its many packages are installed beside what it makes, so that neither the program's own tree nor the
// stamp of its sources ever holds them.
import { spawnSync } from 'node:child_process'
import { cpSync, existsSync, mkdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import process from 'node:process'
import { buildIfNeeded } from '../build.mjs'
import { root } from './shipped.mjs'

const from = join(root, 'shared', 'packaging')
const tools = join(root, 'dist', 'tools')

function run(/** @type {string} */ program, /** @type {string[]} */ words, /** @type {string} */ folder) {
  const { status } = spawnSync(program, words, { cwd: folder, stdio: 'inherit', shell: process.platform === 'win32' })
  if (status !== 0) process.exit(status ?? 1)
}

const text = (/** @type {string} */ path) => (existsSync(path) ? readFileSync(path, 'utf8') : '')

await buildIfNeeded()
const lock = text(join(from, 'package-lock.json'))
if (text(join(tools, 'package-lock.json')) !== lock || !existsSync(join(tools, 'node_modules'))) {
  mkdirSync(tools, { recursive: true })
  for (const file of ['package.json', 'package-lock.json', '.npmrc']) cpSync(join(from, file), join(tools, file))
  run('npm', ['ci'], tools)
}
const packer = join(tools, 'node_modules', 'electron-builder', 'cli.js')
const asked = process.argv.slice(2)
const config = asked.includes('--config') ? [] : ['--config', join(from, 'electron-builder.json')]
run(process.execPath, [packer, '--projectDir', root, ...config, ...asked], root)
