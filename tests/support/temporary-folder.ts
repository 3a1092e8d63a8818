import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach } from 'vitest'

/** A fresh real folder for each test, removed afterwards. */
export function temporaryFolder(): { readonly path: string } {
  const folder = { path: '' }
  beforeEach(async () => {
    folder.path = await mkdtemp(join(tmpdir(), 'thickset-test-'))
  })
  afterEach(async () => {
    await rm(folder.path, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 })
  })
  return folder
}
