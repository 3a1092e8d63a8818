import { describe, expect, it } from 'vitest'
import { layerTitle, placeWords } from '../../../../src/core/words/place.ts'
import { placeContourLabels } from '../../../../src/renderer/film/contour-labels.ts'
import { linesThatMatter } from '../../../../src/renderer/film/film-words.ts'
import { drawnGrid, extentOf } from '../../../../src/renderer/film/section-shape.ts'
import { syntheticForecast, syntheticPlan } from '../../../support/synthetic-forecast.ts'

const forecast = syntheticForecast()

describe('film words', () => {
  it('name places', () => {
    expect(placeWords({ x: 0.5, y: 0.5 })).toBe('in the middle')
    expect(placeWords({ x: 0.5, y: 0.02 })).toBe('at the bottom, in the middle')
    expect(placeWords({ x: 0.1, y: 0.9 })).toBe('high, left')
    expect(placeWords({ x: 0.97, y: 0.5 })).toBe('at the right edge')
  })

  it('name layers as the material does, and unknown ones as the plan does', () => {
    expect(layerTitle(forecast, 'fill[0]')).toBe('Lemon cream')
    expect(layerTitle(forecast, 'fill[7]')).toBe('fill[7]')
  })

  it('draw the limits of the danger zone and what was asked, each once', () => {
    expect(linesThatMatter(forecast, syntheticPlan)).toEqual([5, 60, -12])
  })
})

describe('contour labels', () => {
  const frame = { width: 300, height: 200 }
  const line = (y: number, length = 300) => [
    { x: 0, y },
    { x: length, y },
  ]

  it('stand on their lines, apart from each other, from ends and from the sign', () => {
    const contours = [10, 20, 30, 40].map((value) => ({ value, step: 1, lines: [line(value * 4)] }))
    const labels = placeContourLabels(contours, [{ x: 150, y: 80 }], frame)
    expect(labels.map((label) => label.value)).toEqual([10, 20, 30, 40])
    labels.forEach((label, index) => {
      expect(label.y).toBeCloseTo(label.value * 4, 9)
      expect(label.x).toBeGreaterThan(15)
      expect(label.x).toBeLessThan(285)
      expect(Math.hypot(label.x - 150, label.y - 80)).toBeGreaterThan(26)
      for (const other of labels.slice(index + 1))
        expect(Math.hypot(label.x - other.x, label.y - other.y)).toBeGreaterThan(26)
    })
  })

  it('keep inside the picture', () => {
    expect(placeContourLabels([{ value: 1, step: 1, lines: [line(4)] }], [], frame)).toEqual([])
  })

  it('are left out on short lines', () => {
    expect(placeContourLabels([{ value: 1, step: 1, lines: [line(20, 30)] }], [], frame)).toEqual([])
  })
})

describe('drawnGrid', () => {
  it('gives a sheet a strip of sensible width and leaves all else to scale', () => {
    const sheet = syntheticForecast('sheet').film[0]!.grid
    const strip = extentOf(drawnGrid(sheet, true))
    expect(strip.height).toBeCloseTo(0.18, 12)
    expect(strip.width).toBeCloseTo(0.18 * 2.2, 12)
    expect(drawnGrid(sheet, false)).toBe(sheet)
  })
})
