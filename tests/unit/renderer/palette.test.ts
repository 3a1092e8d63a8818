import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'

/*
 * Contrast by WCAG 2.2, "contrast ratio" and "relative luminance" (w3.org/TR/WCAG22): the lightness of sRGB channels
 * weighed 0.2126, 0.7152, 0.0722, the ratio (lighter + 0.05) / (darker + 0.05). Text needs 4.5, lines and controls 3.
 */
const css = readFileSync(join(import.meta.dirname, '../../../src/renderer/styles/palette.css'), 'utf8')

const pairs = new Map(
  [...css.matchAll(/--([a-z0-9-]+):\s*light-dark\((#[0-9a-f]{6}),\s*(#[0-9a-f]{6})\)/gi)].map(
    ([, name, light, dark]) => [name ?? '', { light: light ?? '', dark: dark ?? '' }],
  ),
)

function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}

function contrast(a: string, b: string, side: 'light' | 'dark'): number {
  const [x, y] = [a, b].map((name) => luminance(pairs.get(name)?.[side] ?? ''))
  return (Math.max(x ?? 0, y ?? 0) + 0.05) / (Math.min(x ?? 0, y ?? 0) + 0.05)
}

/** The table of the design: colour, ground, contrast in light and in dark. */
const table: readonly (readonly [string, string, number, number])[] = [
  ['ink', 'paper', 15.2, 15.0],
  ['ink', 'tray', 13.5, 13.4],
  ['ink2', 'paper', 7.4, 9.1],
  ['ink2', 'tray', 6.6, 8.2],
  ['edge', 'paper', 4.0, 4.8],
  ['edge', 'tray', 3.5, 4.3],
  ['enamel', 'paper', 8.0, 9.4],
  ['enamel', 'tray', 7.1, 8.4],
  ['on-enamel', 'enamel', 8.5, 8.8],
  ['enamel', 'wash', 6.9, 6.7],
  ['leaf', 'paper', 6.1, 9.3],
  ['leaf', 'tray', 5.5, 8.3],
  ['honey', 'paper', 5.9, 9.9],
  ['honey', 'tray', 5.3, 8.9],
  ['brick', 'paper', 6.4, 7.3],
  ['brick', 'tray', 5.7, 6.6],
  ['caramel', 'paper', 5.2, 8.9],
  ['caramel', 'tray', 4.6, 7.9],
  ['slate', 'paper', 5.8, 9.4],
  ['slate', 'tray', 5.2, 8.4],
  ['teal', 'paper', 5.8, 9.0],
  ['teal', 'tray', 5.2, 8.0],
  ['on-fill', 'custard', 11.1, 8.1],
]

describe('the palette', () => {
  test('black on white is 21 to 1, so the formula is the standard’s', () => {
    expect((luminance('#ffffff') + 0.05) / (luminance('#000000') + 0.05)).toBeCloseTo(21, 6)
  })

  test.each(table)('%s on %s has the contrast that the design states', (colour, ground, light, dark) => {
    // the table is given to one decimal
    expect(Math.abs(contrast(colour, ground, 'light') - light)).toBeLessThanOrEqual(0.051)
    expect(Math.abs(contrast(colour, ground, 'dark') - dark)).toBeLessThanOrEqual(0.051)
  })

  test('text on every ground has at least 4.5 to 1, controls and lines 3 to 1', () => {
    for (const side of ['light', 'dark'] as const) {
      for (const ground of ['paper', 'tray']) {
        for (const colour of ['ink', 'ink2', 'enamel', 'leaf', 'honey', 'brick', 'caramel', 'slate', 'teal']) {
          expect(contrast(colour, ground, side), `${colour} on ${ground}, ${side}`).toBeGreaterThanOrEqual(4.5)
        }
        expect(contrast('edge', ground, side)).toBeGreaterThanOrEqual(3)
      }
    }
  })

  test('words printed on the light materials can be read', () => {
    for (const look of ['cream', 'custard', 'sponge', 'batter', 'gel', 'plain']) {
      for (const side of ['light', 'dark'] as const) {
        expect(contrast('on-fill', look, side), `${look}, ${side}`).toBeGreaterThanOrEqual(4.5)
      }
    }
  })

  test('outlines stand out from every material', () => {
    for (const look of ['cream', 'custard', 'sponge', 'batter', 'biscuit', 'gel', 'plain', 'mould', 'fruit']) {
      expect(contrast('ink', look, 'light'), `${look}, light`).toBeGreaterThanOrEqual(2.5)
    }
  })
})
