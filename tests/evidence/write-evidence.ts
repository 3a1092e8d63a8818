import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { totals } from '../../src/core/verification/evidence.ts'
import { collect } from './collect.ts'
import { evidenceHtml } from './html.tsx'
import { keptText } from './kept.ts'
import { evidenceMarkdown, pictureName } from './markdown.ts'
import { convergencePicture, measuredPicture } from './picture.tsx'

/*
 * `npm run evidence`: computes everything that there is to show and writes it to out-evidence; with --keep also what the
 * window shows of it, to shared/evidence. --date hands in another day. Exit code 1 where a figure is outside its
 * tolerance without a known reason.
 */

const root = process.cwd()
const words = process.argv.slice(2)
const dateAt = words.indexOf('--date')
const madeOn = dateAt >= 0 ? (words[dateAt + 1] ?? '') : new Date().toISOString().slice(0, 10)
// Not in out/, which each build puts a new one in the place of.
const folder = join(root, 'out-evidence')
const examples = join(root, 'shared', 'examples')
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string }

const collected = collect({
  program: version,
  madeOn,
  plans: readdirSync(examples).map((name) => readFileSync(join(examples, name), 'utf8')),
  report: (doing) => process.stderr.write(`${doing}\n`),
})
const { evidence } = collected

mkdirSync(folder, { recursive: true })
const write = (name: string, text: string): void => writeFileSync(join(folder, name), text)
write('evidence.html', evidenceHtml(collected))
write('evidence.md', evidenceMarkdown(collected))
write(pictureName('measured'), measuredPicture(evidence.measured))
for (const study of evidence.convergence) write(pictureName(study.case), convergencePicture(study))
if (words.includes('--keep')) writeFileSync(join(root, 'shared', 'evidence', 'evidence.json'), keptText(evidence))

const { figures, within, outside, unexplained, left } = totals(evidence)
process.stdout.write(
  `${figures} figures, ${within} within, ${outside} outside (${unexplained} without a known reason), ${left} not judged\n${join(folder, 'evidence.html')}\n`,
)
process.exitCode = unexplained > 0 ? 1 : 0
