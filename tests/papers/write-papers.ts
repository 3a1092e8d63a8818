import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { jsonSchema } from '../../src/core/plan/json-schema.ts'
import { PLAN_VERSION } from '../../src/core/plan/schema/plan.ts'
import { isOfClone } from './clone-commands.ts'
import { readPapers } from './papers.ts'
import { takePictures } from './pictures.ts'
import { planFormat } from './plan-format.ts'
import { commandsOf, foundLines, renewed } from './transcripts.ts'
import { openWorkshop } from './workshop.ts'

/*
 * `npm run papers`: makes the reference of the plan file anew, and puts the numbers that commands print now into the
 * lines that the papers quote of them. Needs a build. Words that have changed are for a person to mend: it names them.
 * With --pictures it takes the pictures anew too, for which it needs a Chromium.
 */

const root = process.cwd()
writeFileSync(join(root, 'shared', 'papers', 'plan-format.md'), planFormat(jsonSchema(), PLAN_VERSION))

for (const { name, text } of readPapers(root)) {
  const workshop = openWorkshop(root)
  const lines = text.split('\n')
  for (const command of commandsOf(name, text)) {
    if (isOfClone(command.words)) continue
    const { printed, exit } = workshop.run(command.words)
    if (exit !== command.exit) process.stderr.write(`${name}:${command.line + 1}: ends with ${exit}\n`)
    const found = foundLines(command.quoted, printed)
    for (const [index, quoted] of command.quoted.entries()) {
      const line = found[index]
      if (line === undefined) process.stderr.write(`${name}:${quoted.line + 1}: not printed: ${quoted.text}\n`)
      else lines[quoted.line] = renewed(quoted, line)
    }
  }
  workshop.close()
  const now = lines.join('\n')
  if (now !== readFileSync(join(root, name), 'utf8')) writeFileSync(join(root, name), now)
}

if (process.argv.includes('--pictures')) {
  const measured = join(mkdtempSync(join(tmpdir(), 'thickset-papers-')), 'measured.thickset')
  const workshop = openWorkshop(root)
  workshop.run(`npx thickset fit plan.thickset --readings log.csv --write "${measured}"`)
  workshop.close()
  await takePictures(root, measured, join(root, 'shared', 'papers', 'pictures'))
}
