import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { planName, safeFileName } from '../../src/main/file-name.ts'

describe('names of files', () => {
  // Reserved names and characters: Microsoft, "Naming Files, Paths, and Namespaces" (Win32 documentation).
  it.each([
    ['Lemon half-round', 'Lemon half-round'],
    ['../../etc/passwd', '-..-etc-passwd'],
    ['a<b>c:d"e/f\\g|h?i*j', 'a-b-c-d-e-f-g-h-i-j'],
    ['  ..hidden.. ', 'hidden'],
    ['CON', '_CON'],
    ['nul.thickset', '_nul.thickset'],
    ['Com1', '_Com1'],
    ['lpt³', '_lpt³'],
    ['COM10', 'COM10'],
    ['Console', 'Console'],
    ['a\u0000b\u001fc', 'a-b-c'],
    ['ev\u202eil', 'ev-il'],
    ['Cre\u0300me', 'Crème'],
    ['', 'Plan'],
    ['...', 'Plan'],
    ['/', 'Plan'],
    ['Käse 蛋糕', 'Käse 蛋糕'],
  ])('makes %j into %j', (asked, expected) => {
    expect(safeFileName(asked)).toBe(expected)
  })

  it('keeps to 100 letters and to 180 bytes, without half a letter at the end', () => {
    expect(safeFileName('x'.repeat(500))).toHaveLength(100)
    expect(safeFileName('🍰'.repeat(200))).toBe('🍰'.repeat(45))
  })

  it('gives a name that stays in its folder, whatever was asked (any text)', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (asked) => {
        const name = safeFileName(asked)
        expect(name).not.toMatch(/[/\\:*?"<>|\p{Cc}\p{Surrogate}]/u)
        expect(name).not.toMatch(/^[\s.]|[\s.]$/)
        expect(name.length).toBeGreaterThan(0)
        expect(Buffer.byteLength(name)).toBeLessThanOrEqual(181)
        expect(safeFileName(name)).toBe(name)
      }),
      { seed: 20270312, numRuns: 2000 },
    )
  })

  it('calls a plan by its file, without ending', () => {
    expect(planName('/x/Lemon bar.thickset')).toBe('Lemon bar')
    expect(planName('/x/Lemon.bar.JSON')).toBe('Lemon.bar')
    expect(planName('/x/notes.txt')).toBe('notes.txt')
  })
})
