import { describe, expect, it } from 'vitest'
import { FormulaError, parseDefinition, parseFormula } from '../../../src/core/verification/formula.ts'

const value = (text: string, values = {}) => parseFormula(text).evaluate(values)

describe('a formula', () => {
  // Values worked out by hand or by a pocket calculator.
  it.each([
    ['1 + 2 * 3', 7],
    ['2 * 3 - 8 / 4', 4],
    ['7 - 2 - 1', 4],
    ['16 / 4 / 2', 2],
    ['-3^2', -9],
    ['2^-1', 0.5],
    ['2^3^2', 512],
    ['-(1 - 4)', 3],
    ['1.6e+06 * 2', 3_200_000],
    ['sqrt(2*pi)', 2.5066282746310002],
    ['abs(-4) + log(exp(2))', 6],
    ['100*sin(pi/2)', 100],
    ['cos(0) - -1', 2],
  ])('%s = %d', (text, expected) => {
    expect(value(text)).toBeCloseTo(expected, 12)
  })

  it('takes names from outside and says which it needs', () => {
    const formula = parseFormula('0.2*(1+0.0015*T_C) + t')
    expect([...formula.names].sort()).toEqual(['T_C', 't'])
    expect(formula.evaluate({ T_C: 100, t: 1 })).toBeCloseTo(1.23, 12)
  })

  it('gives no number where a name has no value', () => {
    expect(value('T + 1')).toBeNaN()
  })

  it('finds the period of a wave', () => {
    const [turn = 0] = parseFormula('5.0 + 3.0*cos(2*pi*t/2400)').frequencies
    expect((2 * Math.PI) / turn).toBeCloseTo(2400, 6)
    expect(parseFormula('25 + 0.1*t').frequencies).toEqual([])
  })

  it('chooses the piece whose condition holds', () => {
    const formula = parseFormula('T >= a: 1;  T < a: 2 + T')
    expect(formula.evaluate({ T: 5, a: 5 })).toBe(1)
    expect(formula.evaluate({ T: 4, a: 5 })).toBe(6)
  })

  it('calls a defined function', () => {
    const phi = parseDefinition('phi(T) = 1 - T_freeze/T for T < T_freeze (degC), else 0')
    const k = parseFormula('T >= T_freeze: 0.5;  T < T_freeze: 0.5 + (1.6-0.5)*phi(T)', [phi])
    expect(k.evaluate({ T: -2, T_freeze: -1 })).toBeCloseTo(1.05, 12)
    expect(k.evaluate({ T: 3, T_freeze: -1 })).toBe(0.5)
    expect(phi.of(3, { T_freeze: -1 })).toBe(0)
  })

  it.each(['', '1 +', '(1', '1)', 'foo(2)', '2 $ 3', 'T >= 3: ', 'constructor(1)', '1 2', '=', '()'])(
    'refuses "%s" and says where',
    (text) => {
      expect(() => parseFormula(text)).toThrow(FormulaError)
    },
  )

  it('refuses what is too long or nested too deeply', () => {
    expect(() => parseFormula('1+'.repeat(2000))).toThrow(FormulaError)
    expect(() => parseFormula(`${'('.repeat(500)}1${')'.repeat(500)}`)).toThrow(FormulaError)
  })
})
