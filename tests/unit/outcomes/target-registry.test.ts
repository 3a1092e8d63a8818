import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import type { TargetKind } from '../../../src/core/outcomes/target.ts'
import { targetWords } from '../../../src/core/outcomes/target-words.ts'
import { judgeTarget } from '../../../src/core/outcomes/targets/index.ts'
import { jsonSchema } from '../../../src/core/plan/json-schema.ts'
import { questionTitles, questionWord } from '../../../src/renderer/text.ts'
import { handCourse } from './hand-course.ts'

/* One more kind of target is a file, its line in the registry and its words: nothing else lists them. */

const kinds = Object.keys(targetWords) as TargetKind[]
/** What the targets share, beside their own files. */
const shared = ['index.ts', 'ways.ts', 'fallen.ts']

test('every file of a target is in the registry, and the other way round', () => {
  const files = readdirSync(join(import.meta.dirname, '../../../src/core/outcomes/targets'))
  const own = files.filter((name) => !shared.includes(name)).map((name) => name.replace('.ts', ''))
  expect([...own].sort()).toEqual([...kinds].sort())
})

test('every kind can be asked for in a plan', () => {
  const asked = [...JSON.stringify(jsonSchema()).matchAll(/"kind":\{"type":"string","const":"([a-z]+)"\}/g)]
  for (const kind of kinds) expect(asked.map(([, name]) => name)).toContain(kind)
})

test('the window has its words from the same lines', () => {
  for (const kind of kinds) {
    const { title, asks, short, source, unknown } = targetWords[kind]
    expect(questionTitles[kind]).toBe(asks)
    expect(questionWord(kind)).toBe(short)
    for (const words of [title, asks, short, source, unknown]) expect(words.length).toBeGreaterThan(2)
  }
})

describe('every kind is judged by its own file', () => {
  const course = handCourse({ hours: [0, 6, 12], air_C: 3, places: [{ y: 0.5, T_C: [80, 20, 4] }] })
  test.each(kinds)('%s', (kind) => {
    const target = { kind, index: 3, core_C: 5 } as unknown as Parameters<typeof judgeTarget>[0]
    const answer = judgeTarget(target, course)
    expect(answer).toMatchObject({ target: kind, index: 3 })
    expect(answer.sources!.at(-1)).toBe(targetWords[kind].source)
    expect(answer.notes!.at(-1)).toMatchObject({ code: 'target-unknown' })
  })
})
