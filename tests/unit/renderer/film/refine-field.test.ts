import { describe, expect, it } from 'vitest'

import { nodeField, nodeWeights } from '../../../../src/renderer/film/node-field.ts'
import { refineField, refineGrid } from '../../../../src/renderer/film/refine-field.ts'
import { syntheticForecast } from '../../../support/synthetic-forecast.ts'

const bar = syntheticForecast('bar').film[0]!
const sheet = syntheticForecast('sheet').film[0]!

describe('refineGrid', () => {
  it('keeps the nodes of the mesh and their values', () => {
    const { grid } = bar
    const nodes = nodeField(nodeWeights(grid), bar.T_C[20]!)
    const refined = refineGrid(grid)
    const fine = refineField(refined, nodes)
    const [partsU, partsV] = [refined.grid.nu / grid.nu, refined.grid.nv / grid.nv]
    expect(refined.grid.nu).toBeGreaterThanOrEqual(72)
    for (let iv = 0; iv <= grid.nv; iv++) {
      for (let iu = 0; iu <= grid.nu; iu++) {
        const [coarse, there] = [iv * (grid.nu + 1) + iu, iv * partsV * (refined.grid.nu + 1) + iu * partsU]
        expect(fine[there]).toBeCloseTo(nodes[coarse]!, 9)
        expect(refined.grid.x_m[there]).toBeCloseTo(grid.x_m[coarse]!, 12)
      }
    }
  })

  it('draws nothing beyond what the nodes hold, at a jump too', () => {
    const { grid } = bar
    const nodes = new Float64Array((grid.nu + 1) * (grid.nv + 1)).map((_, index) =>
      index % (grid.nu + 1) < 9 ? 80 : 4,
    )
    const fine = refineField(refineGrid(grid), nodes)
    expect(Math.max(...fine)).toBe(80)
    expect(Math.min(...fine)).toBe(4)
  })

  it('follows a parabola closely', () => {
    // On the bar's own nodes, T = x² in metres: the curve through four even neighbours would be exact; these are uneven.
    const { grid } = bar
    const refined = refineGrid(grid)
    const fine = refineField(
      refined,
      grid.x_m.map((x) => x * x),
    )
    let worst = 0
    fine.forEach((value, index) => {
      worst = Math.max(worst, Math.abs(value - refined.grid.x_m[index]! ** 2))
    })
    // A thousandth of the range: finer than a contour's line.
    expect(worst).toBeLessThan(0.001 * 0.3 ** 2)
  })

  it('rounds a turn without a notch where it closes', () => {
    const nu = 24
    const nv = 6
    const at = (index: number): readonly [number, number] => [index % (nu + 1), Math.floor(index / (nu + 1))]
    const coordinate = (of: (angle: number) => number) =>
      new Float64Array((nu + 1) * (nv + 1)).map((_, index) => {
        const [iu, iv] = at(index)
        return (iv / nv) * of((2 * Math.PI * (iu % nu)) / nu)
      })
    const ring = {
      ...bar.grid,
      nu,
      nv,
      x_m: coordinate(Math.cos),
      y_m: coordinate(Math.sin),
      layer: new Int16Array(nu * nv),
    }
    const { grid } = refineGrid(ring)
    for (let iu = 0; iu <= grid.nu; iu++) {
      const index = grid.nv * (grid.nu + 1) + iu
      // Between nodes 15° apart the curve leaves the circle by less than 0.1 %; chords would by 0.9 %.
      expect(Math.abs(Math.hypot(grid.x_m[index]!, grid.y_m[index]!) - 1)).toBeLessThan(0.001)
    }
  })

  it('leaves the one column of a sheet alone', () => {
    expect(refineGrid(sheet.grid).grid.nu).toBe(1)
  })
})
