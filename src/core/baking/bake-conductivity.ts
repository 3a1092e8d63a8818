import type { Baking } from '../materials/material.ts'

/*
 * Conductivity of baking cells, drawn once as straight pieces over temperature and growth: the laws behind it are too
 * slow to be asked for every cell and step.
 */

const STEP_K = 1
/** Nodes over growth where the mass rises. */
const GROWTH_NODES = 6

export interface BakeConductivity {
  /** W/(m K); `set` 0 to 1. */
  moist(T_C: number, set: number, growth: number): number
  crust(T_C: number, growth: number): number
}

/** A function of temperature and growth as a grid. */
function grid(
  of: (T_C: number, growth: number) => number,
  low_C: number,
  high_C: number,
  mostGrowth: number,
): (T_C: number, growth: number) => number {
  const rows = Math.max(1, Math.ceil((high_C - low_C) / STEP_K))
  const columns = mostGrowth > 1 ? GROWTH_NODES : 1
  const perGrowth = columns > 1 ? (columns - 1) / (mostGrowth - 1) : 0
  const values = new Float64Array((rows + 1) * columns)
  for (let row = 0; row <= rows; row++) {
    const T_C = low_C + ((high_C - low_C) * row) / rows
    for (let column = 0; column < columns; column++) {
      values[row * columns + column] = of(T_C, columns > 1 ? 1 + column / perGrowth : 1)
    }
  }
  const perK = rows / (high_C - low_C)
  return (T_C, growth) => {
    const x = Math.min(Math.max((T_C - low_C) * perK, 0), rows)
    const row = Math.min(Math.trunc(x), rows - 1)
    const share = x - row
    const read = (column: number): number => {
      const at = row * columns + column
      return values[at]! + (values[at + columns]! - values[at]!) * share
    }
    if (columns === 1) return read(0)
    const g = Math.min(Math.max((growth - 1) * perGrowth, 0), columns - 1)
    const column = Math.min(Math.trunc(g), columns - 2)
    const left = read(column)
    return left + (read(column + 1) - left) * (g - column)
  }
}

/** The last drawing of every law: runs of one job on two grids and with varied inputs ask for the same again. */
const drawings = new WeakMap<Baking, { readonly key: string; readonly drawn: BakeConductivity }>()

/** Both conductivities between two temperatures; beyond them those of the ends. */
export function bakeConductivity(baking: Baking, low_C: number, high_C: number): BakeConductivity {
  const { scaledFrom } = baking
  if (scaledFrom !== undefined) {
    const { k } = scaledFrom
    const { moist, crust } = bakeConductivity(scaledFrom.baking, low_C, high_C)
    return {
      moist: (T_C, set, growth) => k * moist(T_C, set, growth),
      crust: (T_C, growth) => k * crust(T_C, growth),
    }
  }
  const key = `${low_C} ${high_C}`
  const known = drawings.get(baking)
  if (known !== undefined && known.key === key) return known.drawn
  const drawn = draw(baking, low_C, high_C)
  drawings.set(baking, { key, drawn })
  return drawn
}

function draw(baking: Baking, low_C: number, high_C: number): BakeConductivity {
  const { boils_C, mostGrowth } = baking
  const end_C = Math.max(Math.min(high_C, boils_C), low_C + STEP_K)
  const soft = grid((T_C, growth) => baking.moistConductivity(T_C, 0, growth), low_C, end_C, mostGrowth)
  const set = grid((T_C, growth) => baking.moistConductivity(T_C, 1, growth), low_C, end_C, mostGrowth)
  const crust = grid((T_C, growth) => baking.crustConductivity(T_C, growth), low_C, high_C, mostGrowth)
  return {
    moist: (T_C, share, growth) => {
      const k = set(T_C, growth)
      return share === 1 ? k : k + (1 - share) * (soft(T_C, growth) - k)
    },
    crust,
  }
}
