import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdir, readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterEach, describe, expect, it } from 'vitest'
import { Store } from '../../src/main/store.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

// The program's own process is killed in the middle of saving, again and again: the plan on the disk is always one that
// was whole, and the next start reads all that was kept. (A power cut loses more than a kill only where a disk does not
// do what `fsync` asks of it.)

const KILLS = 10
const folder = temporaryFolder()
const out = join(import.meta.dirname, '..', '..', 'out')
const children: ChildProcess[] = []
afterEach(() => {
  for (const child of children.splice(0)) child.kill('SIGKILL')
})

/** A process that saves and keeps ever new plans through the built host until it is killed. */
function startSaving(round: number): ChildProcess {
  const options = {
    pages: join(out, 'renderer'),
    version: '0.0.0-test',
    stateFolder: join(folder.path, 'state'),
    plansFolder: join(folder.path, 'plans'),
  }
  const program = `import { startHost } from ${JSON.stringify(pathToFileURL(join(out, 'main', 'host.js')).href)}
    const host = await startHost(${JSON.stringify(options)})
    const address = new URL(host.address)
    const post = async (path, body, headers = {}) => {
      const asked = { method: 'POST', headers: { 'content-type': 'application/json', ...headers } }
      const response = await fetch(address.origin + path, { ...asked, body: JSON.stringify(body) })
      const envelope = await response.json()
      if (!envelope.ok) throw new Error(envelope.message)
      return envelope.value
    }
    const { token } = await post('/key', { key: address.hash.slice(1) })
    const ask = (channel, body) => post('/ask/' + channel, body, { authorization: 'Bearer ' + token })
    const { draftId } = await ask('ready', {})
    for (let n = 0; ; n++) {
      const text = String((${round} + n) % 10).repeat(1_000_000)
      await ask('savePlanAs', { name: 'Lemon', text, replace: true })
      await ask('keepDraft', { id: draftId, name: 'Lemon', text, planId: null })
      if (n === 0) console.log('saving')
    }`
  const child = spawn(process.execPath, ['--input-type=module', '-e', program], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  children.push(child)
  return child
}

const isWhole = (text: string): boolean => text.length === 1_000_000 && text === text.charAt(0).repeat(1_000_000)

describe('killed while saving', { timeout: 120_000 }, () => {
  it('leaves a whole plan, and every draft that was kept', async () => {
    await mkdir(join(folder.path, 'plans'))
    for (let round = 1; round <= KILLS; round++) {
      const child = startSaving(round)
      await once(child.stdout!, 'data')
      // Another moment of the work each time.
      await new Promise((done) => setTimeout(done, 7 * round))
      const gone = once(child, 'exit')
      child.kill('SIGKILL')
      await gone
      expect(isWhole(await readFile(join(folder.path, 'plans', 'Lemon.thickset'), 'utf8'))).toBe(true)
    }
    const store = new Store(join(folder.path, 'state'))
    const drafts = await store.listDrafts()
    expect(drafts).toHaveLength(KILLS)
    expect(drafts.every(({ draft }) => isWhole(draft.text))).toBe(true)
    expect(store.takeNotices()).toEqual([])
    const seen = (await readdir(join(folder.path, 'plans'))).filter((file) => !file.startsWith('.'))
    expect(seen).toEqual(['Lemon.thickset'])
  })
})
