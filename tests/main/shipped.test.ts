import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { licenceList } from '../../src/main/packaging/licences.mjs'
import { billOfMaterials } from '../../src/main/packaging/sbom.mjs'
import { ALLOWED, licencesIn, licenceText, root, shippedPackages } from '../../src/main/packaging/shipped.mjs'

const shipped = shippedPackages()
const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
  name: string
  version: string
  dependencies: Record<string, string>
}

describe('packages that are shipped', () => {
  it('are all that the program depends on, what these depend on, and Electron; no tool and no type', () => {
    const names = shipped.map(({ name }) => name)
    expect(names).toEqual(expect.arrayContaining([...Object.keys(manifest.dependencies), 'electron']))
    expect(names.filter((name) => /^@types\/|vite|vitest|typescript|biome|playwright/.test(name))).toEqual([])
    // Counted by npm itself, which leaves tools out; types and Electron are our own rule.
    const words = ['ls', '--all', '--omit=dev', '--parseable', '--package-lock-only', '--long']
    const told = execFileSync('npm', words, { cwd: root, encoding: 'utf8', shell: process.platform === 'win32' })
    const counted = told
      .split('\n')
      .map((line) => line.split(':').find((part) => /^(@[^/@]+\/)?[^/@]+@\d/.test(part)) ?? '')
      .filter((one) => one !== '' && !one.startsWith('@types/') && !one.startsWith('thickset@'))
    const ours = shipped.map(({ name, version }) => `${name}@${version}`).filter((one) => !one.startsWith('electron@'))
    expect([...new Set(counted)].filter((one) => !ours.includes(one) && !one.startsWith('csstype@'))).toEqual([])
  })

  it.each(shipped.map((one) => [`${one.name} ${one.version}`, one] as const))('%s may be given on', (_name, one) => {
    expect(one.licence).not.toBe('')
    for (const licence of licencesIn(one.licence)) expect(ALLOWED).toContain(licence)
  })

  it('that name no licence hold its text', () => {
    const text = licenceText(shipped.find(({ name }) => name === 'png-js')!)
    expect(text).toMatch(/^MIT License/)
  })

  it('are listed with their texts as they lie here: `npm run licences` writes the list', () => {
    const list = readFileSync(join(root, 'shared', 'packaging', 'licences.txt'), 'utf8')
    expect(list).toBe(licenceList())
    for (const { name, version, licence } of shipped) expect(list).toContain(`${name} ${version}: ${licence}\n`)
  })
})

// The structure that CycloneDX 1.5 asks for (its JSON schema, from memory): format, version, serial number, and for each
// component a type, a name, a version, a package URL and a licence; every reference leads to a component.
describe('the bill of materials', () => {
  const bill = billOfMaterials()

  it('is CycloneDX 1.5 of this program', () => {
    expect(bill).toMatchObject({ bomFormat: 'CycloneDX', specVersion: '1.5', version: 1 })
    expect(bill.serialNumber).toMatch(/^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/)
    expect(Number.isNaN(Date.parse(bill.metadata.timestamp))).toBe(false)
    expect(bill.metadata.component).toMatchObject({
      type: 'application',
      name: manifest.name,
      version: manifest.version,
    })
  })

  it('holds exactly what is shipped, each with type, address, licence and a checksum', () => {
    const refs = bill.components.map((one) => one['bom-ref'])
    expect(refs.toSorted()).toEqual(shipped.map(({ name, version }) => `${name}@${version}`).toSorted())
    for (const component of bill.components) {
      expect(component).toMatchObject({ type: 'library', scope: 'required' })
      expect(component.purl).toMatch(/^pkg:npm\/(%40[^/]+\/)?[^/@]+@\d/)
      expect(component.licenses[0]?.expression).toBeTruthy()
      expect(component.hashes?.[0]?.content, component.name).toMatch(/^[0-9a-f]{128}$/)
    }
  })

  it('says what depends on what, and nothing outside of it', () => {
    const known = new Set([`${manifest.name}@${manifest.version}`, ...bill.components.map((one) => one['bom-ref'])])
    for (const { ref, dependsOn } of bill.dependencies)
      for (const one of [ref, ...dependsOn]) expect(known.has(one), one).toBe(true)
    expect(bill.dependencies.map(({ ref }) => ref).toSorted()).toEqual([...known].toSorted())
  })
})
