import { type Fault, PlanError } from '../../core/errors.ts'
import { type FileVerification, isRefusal, verifyFile } from '../../core/verification/formats.ts'
import { closingLine } from '../../core/verification/report.ts'
import { readText } from './input.ts'
import { watchProgress } from './progress.ts'
import { tellRows } from './tell-rows.ts'
import { faultLines, fidelityOf, type Words } from './words.ts'

const FILE_LIMIT = 64_000_000

function readJson(path: string, text: string): unknown {
  try {
    return JSON.parse(text)
  } catch (error) {
    const problem = `is no JSON: ${error instanceof Error ? error.message : error}`
    throw new PlanError([{ path, problem, remedy: 'save the file again as JSON' }])
  }
}

/** `thickset verify FILE…`. */
export async function carryVerify(words: Words): Promise<number> {
  const fidelity = fidelityOf(words) ?? 'standard'
  const faults: Fault[] = []
  let outside = 0
  for (const path of words.operands) {
    const file = readJson(path, await readText(path, FILE_LIMIT))
    const progress = watchProgress(words.has('progress'))
    const result = verifyFile(file, { fidelity }, progress)
    progress.done()
    if (isRefusal(result)) {
      faults.push({ ...result, path: `${path}: ${result.path}` })
      continue
    }
    faults.push(...result.faults.map((fault) => ({ ...fault, path: `${path}: ${fault.path}` })))
    outside += result.summary.outside
    process.stdout.write(
      words.has('json') ? jsonOf(path, fidelity, result) : textOf(path, words.operands.length, result),
    )
  }
  process.stderr.write(faultLines(faults))
  if (faults.length > 0) return 2
  return outside > 0 ? 1 : 0
}

function jsonOf(path: string, fidelity: string, { rows, summary }: FileVerification): string {
  return `${JSON.stringify({ format: 'thickset-verification', version: 1, file: path, fidelity, summary, rows })}\n`
}

function textOf(path: string, files: number, { rows, summary }: FileVerification): string {
  const heading = files > 1 ? `${path}\n` : ''
  return `${heading}${tellRows(rows)}${closingLine(summary)}\n`
}
