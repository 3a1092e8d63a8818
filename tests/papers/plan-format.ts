import { asked } from '../../src/core/plan/faults.ts'
import { alternativesOf, type JsonSchema } from '../../src/core/plan/json-schema.ts'

/* The reference of the plan file, made from the schema that the program reads by. */

interface Section {
  readonly title: string
  readonly schema: JsonSchema
}

const anchorOf = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}_\s-]/gu, '')
    .replace(/\s+/g, '-')

const isObject = (schema: JsonSchema): boolean => schema.properties !== undefined
const cell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ')

/** Sections in the order in which they are first referred to; equal ones are one. */
class Sections {
  readonly list: Section[] = []
  private readonly known = new Map<string, string>()

  /** The title of an object's section, which is made where there is none. */
  titleOf(schema: JsonSchema, key: string, within: string): string {
    const form = JSON.stringify({ ...schema, title: undefined, description: undefined })
    const known = this.known.get(form)
    if (known !== undefined) return known
    const wanted = schema.title ?? `"${key}"`
    const taken = this.list.some(({ title }) => title === wanted)
    const title = taken ? `${wanted} of ${within}` : wanted
    this.known.set(form, title)
    this.list.push({ title, schema })
    return title
  }
}

const MANY = 4

/** What a value may be, in words, with links to the sections of objects. */
function takes(schema: JsonSchema, key: string, within: string, sections: Sections): string {
  const alternatives = alternativesOf(schema)
  if (alternatives.length > 1) {
    const plain = [...new Set(alternatives.map((one) => takes(one, key, within, sections)))]
    return plain.join(plain.length > MANY ? ' · ' : ' or ')
  }
  const [one = schema] = alternatives
  if (isObject(one)) {
    const title = sections.titleOf(one, key, within)
    return `[${title}](#${anchorOf(title)})`
  }
  if (typeof one.additionalProperties === 'object') {
    const names = one.propertyNames === undefined ? 'names' : asked(one.propertyNames)
    return `an object: for each name (${names}) ${takes(one.additionalProperties, key, within, sections)}`
  }
  if (one.type === 'array' && typeof one.items === 'object' && one.prefixItems === undefined)
    return `${asked(one)}; each ${takes(one.items, key, within, sections)}`
  return asked(one)
}

function table({ title, schema }: Section, sections: Sections): string {
  const rows = Object.entries(schema.properties ?? {}).map(([key, property]) => {
    const needed = schema.required?.includes(key) ? 'yes' : ''
    const description =
      property.description ?? alternativesOf(property).find((one) => one.description)?.description ?? ''
    return `| \`${key}\` | ${needed} | ${cell(takes(property, key, title, sections))} | ${cell(description)} |`
  })
  return ['| key | needed | takes | meaning |', '| --- | --- | --- | --- |', ...rows].join('\n')
}

/** The whole reference in Markdown. */
export function planFormat(schema: JsonSchema, version: number): string {
  const sections = new Sections()
  sections.titleOf(schema, 'plan', '')
  const written: string[] = []
  // Tables add sections while they are made.
  for (let index = 0; index < sections.list.length; index++) {
    const section = sections.list[index]!
    const said = section.schema.description === undefined ? [] : [section.schema.description]
    written.push([`## ${section.title}`, ...said, table(section, sections)].join('\n\n'))
  }
  return `${[
    '# The plan file',
    `<!-- Made from the schema by npm run papers: change src/core/plan/schema, not this file. -->`,
    `A plan is JSON in a file named \`*.thickset\`, version ${version}. Keys carry their unit: \`thickness_mm\`, \`start_C\`, \`after_h\`. A key that is not listed is a fault, and named. Files of older versions are read and brought up; those of a newer one are refused. The same as JSON Schema 2020-12: [thickset-plan.schema.json](../schema/thickset-plan.schema.json), or \`npx thickset schema\`.`,
    ...written,
  ].join('\n\n')}\n`
}
