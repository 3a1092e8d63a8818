import { runBundled } from '../support/bundled.mjs'

await runBundled('evidence', 'write-evidence.ts')
