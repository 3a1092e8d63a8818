import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import manifest from '../../package.json'
import sources from '../../shared/reference/sources.json'
import { jsonSchema } from '../../src/core/plan/json-schema.ts'
import { PLAN_VERSION } from '../../src/core/plan/schema/plan.ts'
import { commands } from '../../src/main/cli/commands.ts'
import { cloneCommands, isOfClone } from '../papers/clone-commands.ts'
import { type Paper, readPapers } from '../papers/papers.ts'
import { planFormat } from '../papers/plan-format.ts'
import { commandsOf, fencesOf, foundLines, renewed, sameNumber, untruth } from '../papers/transcripts.ts'
import { openWorkshop } from '../papers/workshop.ts'

/*
 * What is written for readers holds: every command is run, what is quoted of it is what it prints, links lead somewhere.
 * After a change that is meant: npm run papers.
 */

const root = join(import.meta.dirname, '..', '..')
const papers = readPapers(root)
const RENEW = 'after a change that is meant: npm run papers'

describe.each(papers.map((paper) => [paper.name, paper] as const))('%s', (name, { text }: Paper) => {
  const found = commandsOf(name, text)
  const workshop = openWorkshop(root)
  afterAll(() => workshop.close())

  it('says of what language each of its blocks is', () => {
    const known = ['sh', 'console', 'json', 'bibtex', 'text']
    expect(fencesOf(text).filter(({ language }) => !known.includes(language))).toEqual([])
  })

  for (const { words, line, exit, quoted } of found.filter((command) => !isOfClone(command.words)))
    it(`line ${line + 1}: ${words}`, () => {
      const ran = workshop.run(words)
      expect({ exit: ran.exit, said: ran.exit === exit ? '' : ran.printed }).toEqual({ exit, said: '' })
      const lines = foundLines(quoted, ran.printed)
      const wrong = quoted.flatMap((one, index) => untruth(one, lines[index]) ?? [])
      expect(wrong, RENEW).toEqual([])
    })

  it('leads to files that are there', () => {
    const links = Array.from(text.matchAll(/\]\(([^)#][^)]*)\)/g), ([, link = '']) => link.split('#')[0] ?? '')
    const local = links.filter((link) => !/^https?:/.test(link))
    expect(local.filter((link) => !existsSync(join(root, dirname(name), link)))).toEqual([])
  })

  it('names no command that is not there', () => {
    const scripts = Array.from(text.matchAll(/`npm run ([a-z:]+)/g), ([, script = '']) => script)
    expect(scripts.filter((script) => !Object.hasOwn(manifest.scripts, script))).toEqual([])
    const known = [...commands.map(({ command }) => command), '--version', '--help']
    const called = Array.from(text.matchAll(/`(?:npx )?thickset (-*[a-z]+)/g), ([, word = '']) => word)
    expect(called.filter((word) => !known.includes(word))).toEqual([])
  })
})

it('commands of a clone are run where it is said', () => {
  for (const [words, { runBy, as }] of Object.entries(cloneCommands))
    expect(readFileSync(join(root, runBy), 'utf8').includes(as), words).toBe(true)
  const named = papers.flatMap(({ name, text }) => commandsOf(name, text)).filter(({ words }) => /^npm /.test(words))
  expect(named.filter(({ words }) => !isOfClone(words))).toEqual([])
})

it('the guide has six stories, and every command of the program is used in some paper', () => {
  const guide = papers.find(({ name }) => name.endsWith('guide.md'))?.text ?? ''
  expect(guide.match(/^## \d\. /gm)).toHaveLength(6)
  const used = papers.flatMap(({ name, text }) => commandsOf(name, text)).map(({ words }) => words)
  const unused = commands.filter(({ command }) => !used.some((words) => words.includes(`thickset ${command}`)))
  expect(unused.map(({ command }) => command)).toEqual([])
})

it('the reference of the plan file is that of the schema', () => {
  const text = papers.find(({ name }) => name.endsWith('plan-format.md'))?.text
  expect(text === planFormat(jsonSchema(), PLAN_VERSION), RENEW).toBe(true)
  const anchors = new Set(Array.from(text?.matchAll(/^## (.*)$/gm) ?? [], ([, title = '']) => anchorOf(title)))
  const links = Array.from(text?.matchAll(/\]\(#([^)]+)\)/g) ?? [], ([, anchor = '']) => anchor)
  expect(links.length).toBeGreaterThan(50)
  expect(links.filter((anchor) => !anchors.has(anchor))).toEqual([])
})

/** How a heading is linked to, as pages of Markdown are usually shown. */
const anchorOf = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}_\s-]/gu, '')
    .replaceAll(' ', '-')

it('theory names sources and files that are there', () => {
  const theory = papers.find(({ name }) => name.endsWith('theory.md'))?.text ?? ''
  const names = Array.from(theory.matchAll(/`([a-z0-9-]+(?:\/[a-z0-9.-]*)*)`/g), ([, name = '']) => name)
  const files = names.filter((name) => name.includes('/'))
  expect(files.length).toBeGreaterThan(20)
  const missing = files.filter((file) => !existsSync(join(root, 'src', 'core', file)) && !existsSync(join(root, file)))
  expect(missing).toEqual([])
  const keys = names.filter((name) => /-\d{4}$|^[a-z]+-[a-z-]+$/.test(name))
  expect(keys.length).toBeGreaterThan(25)
  expect(keys.filter((key) => !Object.hasOwn(sources, key))).toEqual([])
})

it('how to cite it names this version', () => {
  const citing = papers.find(({ name }) => name.endsWith('citing.md'))?.text ?? ''
  expect(citing).toContain(`version ${manifest.version}`)
  expect(citing).toContain(`version = {${manifest.version}}`)
  expect(citing).toContain(`Plan format ${PLAN_VERSION}`)
})

describe('what is quoted', () => {
  const quoted = [
    { line: 0, text: '  yes  cooled: at 05:17, after 14 h (early 6.3 h)' },
    { line: 1, text: '  −0.6 h  stand it …' },
  ]
  const printed = 'Title\n  yes  cooled: at 05:20, after 14 h (early 6.4 h)\nmore\n  −0.6 h  stand it on spacers\n'

  it('is found in its order, by its words', () => {
    expect(foundLines(quoted, printed)).toEqual([printed.split('\n')[1], printed.split('\n')[3]])
    expect(foundLines([...quoted].reverse(), printed)[1]).toBeUndefined()
    expect(foundLines([{ line: 0, text: '  no  cooled: at 05:17, after 14 h (early 6.3 h)' }], printed)).toEqual([
      undefined,
    ])
  })

  it('may differ by little, and is untrue beyond', () => {
    const [first, second] = quoted
    expect(untruth(first!, '  yes  cooled: at 05:20, after 14 h (early 6.4 h)')).toBeUndefined()
    expect(untruth(first!, '  yes  cooled: at 05:40, after 14 h (early 6.3 h)')).toContain('is printed')
    expect(untruth(first!, '  yes  cooled: at 05:17, after 14 h (early 9.3 h)')).toContain('is printed')
    expect(untruth(second!, '  −0.9 h  stand it on spacers')).toContain('is printed')
    expect(untruth(second!, undefined)).toContain('nothing like')
    expect([sameNumber('−0.6', '0.6'), sameNumber('43', '45'), sameNumber('23:55', '23:59')]).toEqual([
      false,
      true,
      true,
    ])
  })

  it('is renewed with what is printed now', () => {
    expect(renewed(quoted[0]!, printed.split('\n')[1]!)).toBe(printed.split('\n')[1])
    expect(renewed(quoted[1]!, '  −0.8 h  stand it on spacers')).toBe('  −0.8 h  stand it …')
  })
})

it('commands are read with their code, and without what is for the reader', () => {
  const text = '```console\n$ a b # exit 2\nx\n…\n$ c # look\n```\n```sh\nd  # e\n```\n```json\n$ no\n```'
  expect(commandsOf('p', text)).toEqual([
    { paper: 'p', line: 1, words: 'a b', exit: 2, quoted: [{ line: 2, text: 'x' }] },
    { paper: 'p', line: 4, words: 'c', exit: 0, quoted: [] },
    { paper: 'p', line: 7, words: 'd', exit: 0, quoted: [] },
  ])
})
