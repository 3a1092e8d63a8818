import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

export interface Paper {
  /** Its path in the project. */
  readonly name: string
  readonly text: string
}

/** Everything that is written for readers, at a root of the project. */
export function readPapers(root: string): Paper[] {
  const folder = readdirSync(join(root, 'shared', 'papers')).filter((name) => name.endsWith('.md'))
  return ['README.md', 'DEVELOPERS.md', 'CHANGELOG.md', ...folder.map((name) => `shared/papers/${name}`)].map(
    (name) => ({
      name,
      text: readFileSync(join(root, name), 'utf8'),
    }),
  )
}
