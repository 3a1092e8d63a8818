import type { Mesh } from '../geometry/mesh.ts'
import type { StateLaw } from '../materials/state-law.ts'

/** Values that cells carry along and that change nothing: the laws of the job and those of each material. */
export interface States {
  readonly names: readonly string[]
  /** NaN where a cell has none of that name. Shape: names × cells */
  readonly values: readonly Float64Array[]
  /** Takes the temperatures from which `advance` goes on. */
  settle(T_C: (cell: number) => number): void
  advance(T_C: (cell: number) => number, dt: number): void
}

/** @param everywhere  laws of every cell, whatever its material */
export function createStates(mesh: Mesh, everywhere: readonly StateLaw[]): States {
  const { cells } = mesh
  const lawsOf = mesh.layers.map(({ material }) => [...everywhere, ...(material.states ?? [])])
  const laws = [...new Set(lawsOf.flat())]
  const names = [...new Set(laws.flatMap((law) => law.names))]
  const values = names.map(() => new Float64Array(cells).fill(Number.NaN))
  const before_C = new Float64Array(cells)
  const runs = laws.map((law) => {
    const columns = law.names.map((name) => values[names.indexOf(name)]!)
    const own = Int32Array.from({ length: cells }, (_, cell) => cell).filter(
      (cell) => lawsOf[mesh.layerOf[cell]!]?.includes(law) === true,
    )
    for (const cell of own) {
      const start = law.start(mesh.layers[mesh.layerOf[cell]!]!.start_C)
      for (const [index, column] of columns.entries()) column[cell] = start[index]!
    }
    return { law, own, columns, one: new Float64Array(columns.length) }
  })
  return {
    names,
    values,
    settle(T_C) {
      if (runs.length > 0) for (let cell = 0; cell < cells; cell++) before_C[cell] = T_C(cell)
    },
    advance(T_C, dt) {
      if (runs.length === 0) return
      for (const { law, own, columns, one } of runs) {
        for (const cell of own) {
          for (let index = 0; index < columns.length; index++) one[index] = columns[index]![cell]!
          law.advance(one, before_C[cell]!, T_C(cell), dt)
          for (let index = 0; index < columns.length; index++) columns[index]![cell] = one[index]!
        }
      }
      for (let cell = 0; cell < cells; cell++) before_C[cell] = T_C(cell)
    },
  }
}
