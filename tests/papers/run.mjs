import { runBundled } from '../support/bundled.mjs'

await runBundled('papers', 'write-papers.ts')
