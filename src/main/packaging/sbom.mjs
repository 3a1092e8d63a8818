// `npm run sbom`: writes out/sbom.cdx.json, the bill of materials of a packed program in CycloneDX 1.5: what npm knows
// of all packages, less those that are needed only to make the program.
import { execFileSync } from 'node:child_process'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { root, shippedPackages } from './shipped.mjs'

/**
 * @typedef {{ 'bom-ref': string, name: string, purl: string, hashes?: { content: string }[], licenses: { expression?: string }[] }} Component
 * @typedef {{ ref: string, dependsOn: string[] }} Dependency
 * @typedef {{ serialNumber: string, metadata: { timestamp: string, component: object }, components: Component[], dependencies: Dependency[] }} Bill
 */

/**
 * Made at one moment, so a new one each time.
 * @returns {Bill}
 */
export function billOfMaterials() {
  // By the lock, not by what lies about: the same on every machine.
  const words = ['sbom', '--sbom-format', 'cyclonedx', '--sbom-type', 'application', '--package-lock-only']
  const text = execFileSync('npm', words, {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 1e8,
    shell: process.platform === 'win32',
  })
  /** @type {Bill} */
  const bill = JSON.parse(text)
  const shipped = new Map(shippedPackages().map((one) => [`${one.name}@${one.version}`, one]))
  const { name, version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))
  const own = `${name}@${version}`
  return {
    ...bill,
    metadata: { ...bill.metadata, component: { ...bill.metadata.component, name } },
    components: bill.components
      .filter(({ 'bom-ref': ref }) => shipped.has(ref))
      .map((component) => ({
        ...component,
        scope: 'required',
        licenses: [{ expression: shipped.get(component['bom-ref'])?.licence ?? '' }],
      })),
    dependencies: bill.dependencies
      .filter(({ ref }) => ref === own || shipped.has(ref))
      .map(({ ref, dependsOn }) => ({ ref, dependsOn: dependsOn.filter((one) => shipped.has(one)) })),
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  mkdirSync(join(root, 'out'), { recursive: true })
  writeFileSync(join(root, 'out', 'sbom.cdx.json'), `${JSON.stringify(billOfMaterials(), null, 2)}\n`)
}
