// What a packed program carries of others: the packages that are bundled into it, and Electron around it.
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

export const root = join(import.meta.dirname, '..', '..', '..')

/** Licences under which a package may be shipped: each lets it be given on, with its text. */
export const ALLOWED = ['0BSD', 'Apache-2.0', 'BSD-2-Clause', 'BSD-3-Clause', 'ISC', 'MIT', 'OFL-1.1', 'Zlib']

/**
 * Packages that name no licence in their manifest, by the text that lies in them.
 * @type {Record<string, string>}
 */
const BY_ITS_TEXT = { 'png-js': 'MIT' }

/**
 * @typedef {{ name: string, version: string, licence: string, folder: string }} Shipped
 * @returns {Shipped[]} in order of name and version
 */
export function shippedPackages() {
  const { packages } = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'))
  return Object.entries(packages)
    .filter(([folder, entry]) => folder === 'node_modules/electron' || (folder !== '' && !isForMaking(folder, entry)))
    .map(([folder, { version, license }]) => {
      const name = folder.slice(folder.lastIndexOf('node_modules/') + 'node_modules/'.length)
      return { name, version, licence: license ?? BY_ITS_TEXT[name] ?? '', folder }
    })
    .sort((a, b) => (a.name === b.name ? (a.version < b.version ? -1 : 1) : a.name < b.name ? -1 : 1))
}

/** Whether a package is needed to make the program and not in it: tools, and types. */
function isForMaking(/** @type {string} */ folder, /** @type {{ dev?: boolean, devOptional?: boolean }} */ entry) {
  return entry.dev === true || entry.devOptional === true || folder.startsWith('node_modules/@types/')
}

/** The text of a package's licence as it lies in it; none where it has none. */
export function licenceText(/** @type {Shipped} */ { folder }) {
  const place = join(root, folder)
  const file =
    existsSync(place) && readdirSync(place).find((name) => /^(licen[cs]e|copying|ofl)(\.(md|txt))?$/i.test(name))
  return file ? readFileSync(join(place, file), 'utf8').replaceAll('\r\n', '\n').trim() : undefined
}

/** Names of licences in an expression such as `MIT AND ISC`. */
export const licencesIn = (/** @type {string} */ expression) => expression.replaceAll(/[()]/g, '').split(/ (?:AND|OR) /)
