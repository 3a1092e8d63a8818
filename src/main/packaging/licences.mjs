// `npm run licences`: writes which packages a packed program carries, under which licences, with their texts.
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { licenceText, root, shippedPackages } from './shipped.mjs'

const RULE = '-'.repeat(80)

/** The list with all texts; packages that share a text word for word stand before it together. */
export function licenceList() {
  const packages = shippedPackages()
  const named = packages.map(({ name, version, licence }) => `${name} ${version}: ${licence}`)
  const byText = new Map()
  for (const one of packages) {
    const text = licenceText(one) ?? `No text lies in the package; it names ${one.licence}.`
    byText.set(text, [...(byText.get(text) ?? []), `${one.name} ${one.version}`])
  }
  const texts = [...byText].map(([text, names]) => `${RULE}\n${names.join(', ')}\n${RULE}\n${text}\n`)
  return `Thickset is made with the work of others. Each package below is used under its own licence.\n\n${named.join('\n')}\n\n${texts.join('\n')}`
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(join(root, 'shared', 'packaging', 'licences.txt'), licenceList())
