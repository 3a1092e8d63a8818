import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { DEEPEST, readJson } from '../../../src/core/plan/json.ts'

/** Whether the engine's own parser, the yardstick, takes a text. */
function parses(text: string): boolean {
  try {
    JSON.parse(text)
    return true
  } catch {
    return false
  }
}

const problem = (text: string): string => readJson(text).faults[0]?.problem ?? 'none'

describe('what is and what is not JSON is decided as by the engine', () => {
  // Forms named in RFC 8259, each near its neighbour that is not one.
  test.each([
    '0',
    '-0',
    '1.5',
    '-1.5e+3',
    '1E3',
    '01',
    '1.',
    '.5',
    '+1',
    '-',
    '1e',
    '0x10',
    '1_000',
    '--1',
    '1.5.2',
    '""',
    '"a"',
    '"\\u00e9"',
    '"\\u00eg"',
    '"\\x"',
    '"\\"',
    '"',
    '"a\nb"',
    '"\t"',
    '"\\t"',
    "'a'",
    'true',
    'false',
    'null',
    'True',
    'nul',
    'nulls',
    'undefined',
    'NaN',
    'Infinity',
    '-Infinity',
    '[]',
    '[1]',
    '[1,]',
    '[,1]',
    '[1 2]',
    '[1,2',
    '[1}',
    '{}',
    '{"a":1}',
    '{"a":1,}',
    '{"a"}',
    '{"a":}',
    '{a:1}',
    '{"a":1 "b":2}',
    '{"a":1,"b":[{"c":null}]}',
    '{,}',
    '{1:2}',
    '}',
    ']',
    ',',
    ':',
    '',
    ' ',
    '{} {}',
    '[] //',
    '/**/[]',
    '\u00a01',
    '[1]\u0000',
    ' \t\n\r[ ] ',
  ])('%j', (text) => {
    expect(readJson(text).value !== undefined).toBe(parses(text))
    if (!parses(text)) expect(readJson(text).faults).toHaveLength(1)
  })

  test('and so for anything that was JSON once and lost or gained a letter', () => {
    const letters = fc.constantFrom(...'{}[],:"\\ \n0123456789.eE+-truefalsn\'/')
    fc.assert(
      fc.property(
        fc.json({ maxDepth: 5 }),
        fc.nat(),
        letters,
        fc.constantFrom('cut', 'put', 'swap'),
        (text, at, letter, how) => {
          const i = at % (text.length + 1)
          const changed = text.slice(0, i) + (how === 'cut' ? '' : letter) + text.slice(how === 'put' ? i : i + 1)
          const { value, faults } = readJson(changed)
          const refused = faults.some(({ problem: said }) => said.includes('__proto__'))
          if (!refused) expect(value !== undefined).toBe(parses(changed))
          if (value !== undefined) expect(value).toEqual(JSON.parse(changed))
        },
      ),
      { numRuns: 2000, seed: 20270312 },
    )
  })

  test('a byte order mark before it does no harm', () => expect(readJson('\uFEFF[1]').value).toEqual([1]))
})

describe('faults are told by line and column, with what to do', () => {
  test('after several lines', () => {
    expect(readJson('{\n  "title": "x",\n  "version": 1,\n}').faults).toEqual([
      { path: '', problem: 'line 4, column 1: a comma before "}"', remedy: 'take the comma away' },
    ])
  })

  test.each([
    ['{"a": NaN}', 'NaN is no number'],
    ['{"a": -Infinity}', '-Infinity is no number'],
    ['{"a": 1,5}', 'a number with a comma in it'],
    ["{'a': 1}", "a key in ' quotes"],
    ['{“a”: 1}', 'a key in “ quotes'],
    ['{"a": ‘b’}', 'text in ‘ quotes'],
    ['{a: 1}', 'a key without quotes: a'],
    ['{"a": 1 // why\n}', 'a comment or a stray "/"'],
    ['{"a": 1 "b": 2}', 'where a comma or the end was due'],
    ['{"a": [1, 2}', '"}" closes nothing'],
    ['{"a": [1, 2', 'the text ends in the middle'],
    ['{"a": "b\n"}', 'a text that does not end in its line'],
    ['{"a": .5}', '".5" is no number as JSON writes it'],
    ['{"a" 1}', 'no colon after a key'],
    ['{} {}', 'more text after the end'],
    ['', 'there is no plan in it'],
    ['{"__proto__": 1}', '"__proto__" as a key'],
  ])('%s', (text, said) => expect(problem(text)).toContain(said))

  test('a key that stands twice is a fault with its path, and the rest is still read', () => {
    const { value, faults } = readJson('{"stages": [{"name": "a"}, {"name": "b", "name": "c"}]}')
    expect(value).toBeDefined()
    expect(faults).toEqual([
      {
        path: 'stages[1].name',
        problem: 'stands twice',
        remedy: 'keep one of the two (the second is in line 1, column 42)',
      },
    ])
  })
})

test('nesting is refused by count, not by the stack', () => {
  const nested = (depth: number) => `${'['.repeat(depth)}${']'.repeat(depth)}`
  expect(readJson(nested(DEEPEST)).value).toBeDefined()
  expect(problem(nested(DEEPEST + 1))).toContain(`nested more than ${DEEPEST} levels deep`)
  expect(problem('['.repeat(4_000_000))).toContain('nested')
  expect(problem('{"a":'.repeat(800_000))).toContain('nested')
})
