import { describe, expect, it } from 'vitest'

import { cividis, cividisAt, inkOn, relativeLuminance } from '../../../../src/renderer/film/cividis.ts'

describe('cividis', () => {
  it('has its published ends and middle', () => {
    // Nuñez, Anderton, Renslow 2018, table as in matplotlib 3.6.3, _cm_listed.py: rows 0, 128 and 255 of _cividis_data,
    // as shares of one: 0.000000 0.135112 0.304751; 0.488697 0.485318 0.471008; 0.995737 0.909344 0.217772.
    const published: readonly (readonly [number, readonly number[]])[] = [
      [0, [0, 0.135112, 0.304751]],
      [128, [0.488697, 0.485318, 0.471008]],
      [255, [0.995737, 0.909344, 0.217772]],
    ]
    expect(cividis).toHaveLength(256)
    for (const [index, row] of published) expect(cividis[index]).toEqual(row.map((share) => Math.round(share * 255)))
  })

  it('rises in luminance all along', () => {
    const luminances = cividis.map(relativeLuminance)
    // The published shares rise at every entry; rounded to 256 levels a channel, three neighbours tie or fall by less
    // than 0.0001 (entries 25, 42, 101), so that the rise is asked for over two entries.
    for (let index = 2; index < 256; index++) expect(luminances[index]!).toBeGreaterThan(luminances[index - 2]!)
  })

  it('gives steps of a scale that differ in luminance by a contrast of 1.15 or more', () => {
    for (let steps = 4; steps <= 9; steps++) {
      const luminances = Array.from({ length: steps }, (_, index) => relativeLuminance(cividisAt(index / (steps - 1))))
      for (let index = 1; index < steps; index++) {
        expect((luminances[index]! + 0.05) / (luminances[index - 1]! + 0.05)).toBeGreaterThan(1.15)
      }
    }
  })

  it('rises evenly in lightness', () => {
    // CIE 1976 L*: ISO/CIE 11664-4. The map was made even in CAM02-UCS, so CIELAB is met within a few units only.
    const lightness = cividis.map((colour) => 116 * Math.cbrt(relativeLuminance(colour)) - 16)
    const [first, last] = [lightness[0]!, lightness.at(-1)!]
    lightness.forEach((value, index) => {
      expect(Math.abs(value - (first + ((last - first) * index) / 255))).toBeLessThan(3)
    })
  })

  it('lets words be read on every entry', () => {
    // WCAG 2.2, 1.4.3: 4.5 to 1.
    for (const colour of cividis) {
      const ground = relativeLuminance(colour)
      const contrast = inkOn(colour) === '#000' ? (ground + 0.05) / 0.05 : 1.05 / (ground + 0.05)
      expect(contrast).toBeGreaterThanOrEqual(4.5)
    }
  })

  it('is held at its ends', () => {
    expect(cividisAt(-1)).toEqual(cividis[0])
    expect(cividisAt(2)).toEqual(cividis[255])
  })
})
