import { describe, expect, it } from 'vitest'
import { PlanError } from '../../../src/core/errors.ts'
import { commands } from '../../../src/main/cli/commands.ts'
import { meant, sortWords, type Usage } from '../../../src/main/cli/words.ts'

const usage: Usage = {
  command: 'weigh',
  operands: 'PLAN',
  least: 1,
  most: 1,
  says: 'Weigh.',
  options: {
    json: { type: 'boolean', says: 'as JSON' },
    csv: { type: 'string', value: 'FILE', says: 'as CSV' },
  },
}

const faultsOf = (words: readonly string[]) => {
  try {
    sortWords(usage, words)
  } catch (error) {
    if (error instanceof PlanError) return error.faults
    throw error
  }
  return []
}

describe('words of a command', () => {
  it('are sorted into operands and options', () => {
    const words = sortWords(usage, ['--csv', 'out.csv', 'a.thickset', '--json'])
    expect(words.operands).toEqual(['a.thickset'])
    expect(words.text('csv')).toBe('out.csv')
    expect(words.has('json')).toBe(true)
    expect(sortWords(usage, ['-']).operands).toEqual(['-'])
    expect(sortWords(usage, ['--csv=a=b', 'x']).text('csv')).toBe('a=b')
  })

  it('are refused all at once', () => {
    const faults = faultsOf(['--jason', '--csv='])
    expect(faults.map((fault) => fault.remedy)).toEqual([
      'write --json',
      'write --csv FILE',
      'write thickset weigh PLAN with one PLAN',
    ])
  })

  it('after two dashes are operands', () => {
    expect(sortWords(usage, ['--', '--json']).operands).toEqual(['--json'])
  })

  it('that were mistyped are recognised, others not', () => {
    expect(meant('forcast', ['forecast', 'check'])).toBe('forecast')
    expect(meant('CHECK', ['forecast', 'check'])).toBe('check')
    expect(meant('bake', ['forecast', 'check'])).toBeUndefined()
  })
})

describe('the list of commands', () => {
  it('can load every command that it names', async () => {
    for (const command of commands) expect(await command.load()).toBeTypeOf('function')
  })
})
