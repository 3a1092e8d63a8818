// `npm run advisories`: asks the registry what is known against the packages of both locks, and says so where it does
// not answer. What was read by hand is in shared/packaging/advisories.json.
import { execFile } from 'node:child_process'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { root } from './shipped.mjs'

/** The folders whose locks are asked about: the program's, and its packer's. */
const LOCKED = ['.', 'shared/packaging']

/**
 * What the registry tells of one folder's lock.
 * @returns {Promise<{ asked: false, why: string } | { asked: true, found: string[] }>} each finding as one line
 */
async function askRegistry(/** @type {string} */ folder) {
  const answer = await promisify(execFile)('npm', ['audit', '--json', '--package-lock-only'], {
    cwd: join(root, folder),
    encoding: 'utf8',
    maxBuffer: 1e8,
    shell: process.platform === 'win32',
    // It ends with 1 for findings as for no answer: what it prints tells which.
  }).catch((/** @type {{ stdout?: string, message: string }} */ failed) => failed)
  const told = parsed(answer.stdout ?? '')
  if (told?.auditReportVersion === undefined)
    return { asked: false, why: told?.message ?? told?.error?.summary ?? 'no answer' }
  return {
    asked: true,
    found: Object.values(told.vulnerabilities).map(
      (/** @type {{ name: string, range: string, severity: string }} */ { name, range, severity }) =>
        `${name} ${range}: ${severity}`,
    ),
  }
}

function parsed(/** @type {string} */ text) {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

/** One line for each finding, or for why there is none. */
async function linesOf(/** @type {string} */ folder) {
  const answer = await askRegistry(folder)
  if (!answer.asked) return [`NOT LOOKED AT, the registry does not tell (${answer.why.trim()})`]
  if (answer.found.length === 0) return ['nothing known against its packages']
  process.exitCode = 1
  return answer.found
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const folder of LOCKED) {
    for (const line of await linesOf(folder)) process.stdout.write(`${folder}: ${line}\n`)
  }
}
