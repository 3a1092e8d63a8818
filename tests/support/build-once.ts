import { execFileSync } from 'node:child_process'
import { join } from 'node:path'

/** Makes out/ fit the sources before the tests that use it; nothing happens when it does already. */
export function setup(): void {
  execFileSync(process.execPath, [join(import.meta.dirname, '..', '..', 'src', 'main', 'build.mjs')], {
    stdio: ['ignore', 'ignore', 'inherit'],
  })
}
