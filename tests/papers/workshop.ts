import { spawnSync } from 'node:child_process'
import { chmodSync, copyFileSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'

/** What a command printed, both streams in one, and how it ended. */
export interface Ran {
  readonly printed: string
  readonly exit: number | null
}

/** A folder in which the commands of a paper are run one after another, as in a clone that has been built. */
export interface Workshop {
  run(words: string): Ran
  close(): void
}

/** @param root  of the project; its `out/` must be built */
export function openWorkshop(root: string): Workshop {
  const folder = mkdtempSync(join(tmpdir(), 'thickset-papers-'))
  const tools = join(folder, '.tools')
  mkdirSync(tools)
  symlinkSync(join(root, 'shared'), join(folder, 'shared'))
  // What "npx thickset" starts in a clone.
  const program = join(root, 'out', 'main', 'cli.js')
  writeFileSync(join(tools, 'npx'), `#!/bin/sh\nshift\nexec "${process.execPath}" "${program}" "$@"\n`)
  chmodSync(join(tools, 'npx'), 0o755)
  const stories = join(root, 'shared', 'papers', 'stories')
  copyFileSync(join(stories, 'pudding-on-the-day.thickset'), join(folder, 'plan.thickset'))
  copyFileSync(join(stories, 'pudding-log.csv'), join(folder, 'log.csv'))
  return {
    run(words) {
      const { stdout, stderr, status } = spawnSync('sh', ['-c', words], {
        cwd: folder,
        encoding: 'utf8',
        timeout: 120_000,
        maxBuffer: 1e8,
        env: { ...process.env, PATH: `${tools}${delimiter}${process.env.PATH}` },
      })
      return { printed: `${stdout}${stderr}`, exit: status }
    },
    close: () => rmSync(folder, { recursive: true, force: true }),
  }
}
