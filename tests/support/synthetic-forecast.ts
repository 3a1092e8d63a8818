import type { Forecast, SectionFilm, SectionGrid } from '../../src/core/forecast-types.ts'
import { message } from '../../src/core/messages.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'

/*
 * A forecast made up for tests of the window alone: a lumped core that follows the air, a parabola across the section.
 * It is shaped like a forecast and is none; no figure of it means anything.
 */

export type SyntheticShape = 'bar' | 'ball' | 'sheet'

const stages = [
  { name: 'Bench', from_h: 0, to_h: 2, air_C: 21, surface_h: 0.6, core_h: 30 },
  { name: 'Cold room', from_h: 2, to_h: 20, air_C: 2, surface_h: 4, core_h: 17 },
  { name: 'Chest freezer', from_h: 20, to_h: 136, air_C: -18, surface_h: 6, core_h: 34 },
  { name: 'Fridge', from_h: 136, to_h: 164, air_C: 3, surface_h: 9, core_h: 60 },
] as const

export const syntheticPlan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Lemon bar',
  startsAt: '2027-03-12T16:00',
  rules: ['rule-a'],
  piece: {
    shape: { kind: 'bar', width_mm: 300, length_mm: 1200 },
    lining: [{ material: 'sponge', thickness_mm: 9, start_C: 20 }],
    fill: [{ material: 'cream', thickness_mm: 180, start_C: 80 }],
  },
  stages: stages.map((stage) => ({
    name: stage.name,
    in: { air_C: stage.air_C },
    until: { after_h: stage.to_h - stage.from_h },
  })),
  targets: [
    { kind: 'frozen', core_C: -12, by: '2027-03-18T08:00' },
    { kind: 'cooled', core_C: 5, by: '2027-03-15T08:00' },
  ],
  probes: [{ name: 'rim', x: 0.1, y: 0.5 }],
}

interface Sample {
  readonly at_h: number
  readonly core: number
  readonly surface: number
  readonly air: number
}

function samples(): readonly Sample[] {
  let [core, surface] = [80, 45]
  const found: Sample[] = []
  for (const stage of stages) {
    found.push({ at_h: stage.from_h, core, surface, air: stage.air_C })
    const count = Math.max(20, Math.round((stage.to_h - stage.from_h) * 4))
    const step = (stage.to_h - stage.from_h) / count
    for (let index = 1; index <= count; index++) {
      // Around −2 °C the core lingers, as if its water turned to ice.
      const lag = core > -4 && core < 0 ? stage.core_h * 6 : stage.core_h
      core += ((stage.air_C - core) * step) / lag
      surface += ((stage.air_C + 0.15 * (core - stage.air_C) - surface) * step) / stage.surface_h
      found.push({ at_h: stage.from_h + index * step, core, surface, air: stage.air_C })
    }
  }
  return found
}

function rectangle(nu: number, nv: number, width_m: number, height_m: number): SectionGrid {
  // Finer towards the rim, as a mesh of the section would be.
  const even = (index: number, count: number): number => (1 - Math.cos((Math.PI * index) / count)) / 2
  const x_m = new Float64Array((nu + 1) * (nv + 1))
  const y_m = new Float64Array((nu + 1) * (nv + 1))
  for (let iv = 0; iv <= nv; iv++) {
    for (let iu = 0; iu <= nu; iu++) {
      x_m[iv * (nu + 1) + iu] = (nu === 1 ? iu : even(iu, nu)) * width_m
      y_m[iv * (nu + 1) + iu] = even(iv, nv) * height_m
    }
  }
  const layer = new Int16Array(nu * nv).map((_, index) => {
    const [iu, iv] = [index % nu, Math.floor(index / nu)]
    return iv < 2 || (nu > 1 && (iu < 2 || iu >= nu - 2)) ? 0 : 1
  })
  return { nu, nv, x_m, y_m, layer, width_m, height_m }
}

function disc(nu: number, nv: number, radius: number): SectionGrid {
  const x_m = new Float64Array((nu + 1) * (nv + 1))
  const y_m = new Float64Array((nu + 1) * (nv + 1))
  for (let iv = 0; iv <= nv; iv++) {
    for (let iu = 0; iu <= nu; iu++) {
      const [r, angle] = [(radius * iu) / nu, (2 * Math.PI * iv) / nv]
      x_m[iv * (nu + 1) + iu] = radius + r * Math.cos(angle)
      y_m[iv * (nu + 1) + iu] = radius + r * Math.sin(angle)
    }
  }
  const layer = new Int16Array(nu * nv).map((_, index) => (index % nu >= nu - 2 ? 0 : 1))
  return { nu, nv, x_m, y_m, layer, width_m: 2 * radius, height_m: 2 * radius }
}

const grids: Readonly<Record<SyntheticShape, () => SectionGrid>> = {
  bar: () => rectangle(28, 18, 0.3, 0.189),
  ball: () => disc(14, 36, 0.15),
  sheet: () => rectangle(1, 24, 1, 0.18),
}

/** 1 in the middle, 0 at the rim. */
function depthShare(grid: SectionGrid, shape: SyntheticShape, cell: number): number {
  const [iu, iv] = [cell % grid.nu, Math.floor(cell / grid.nu)]
  if (shape === 'ball') return 1 - ((iu + 0.5) / grid.nu) ** 2
  const across = (index: number, count: number): number => {
    const at = (1 - Math.cos((Math.PI * (index + 0.5)) / count)) / 2
    return 1 - (2 * at - 1) ** 2
  }
  return (grid.nu === 1 ? 1 : across(iu, grid.nu)) * across(iv, grid.nv)
}

function films(shape: SyntheticShape, course: readonly Sample[]): readonly SectionFilm[] {
  const grid = grids[shape]()
  const cells = grid.nu * grid.nv
  const kept = course.filter((_, index) => index % 6 === 0 || index === course.length - 1)
  const T_C = kept.map((sample) =>
    new Float32Array(cells).map(
      (_, cell) => sample.surface + (sample.core - sample.surface) * depthShare(grid, shape, cell),
    ),
  )
  const danger_h = new Float32Array(cells)
  for (let frame = 1; frame < kept.length; frame++) {
    const lasted = kept[frame]!.at_h - kept[frame - 1]!.at_h
    T_C[frame]!.forEach((value, cell) => {
      if (value >= 5 && value <= 60) danger_h[cell]! += lasted
    })
  }
  const layers = [
    { name: 'lining[0]', material: 'sponge', title: 'Almond sponge', look: 'sponge' as const },
    { name: 'fill[0]', material: 'cream', title: 'Lemon cream', look: 'cream' as const },
  ]
  const left = Math.min(...grid.x_m)
  const bottom = Math.min(...grid.y_m)
  const frame = {
    left,
    bottom,
    width: Math.max(...grid.x_m) - left,
    height: Math.max(...grid.y_m) - bottom,
    turned: false,
  }
  return [
    {
      grid,
      frame,
      layers,
      times_h: kept.map((sample) => sample.at_h),
      T_C,
      danger_h,
      set_pct: T_C,
      ice_pct: T_C,
      setUnknown: [],
    },
  ]
}

function crossing(course: readonly Sample[], T_C: number): number | undefined {
  const after = course.findIndex((sample) => sample.core <= T_C)
  return after < 1 ? undefined : course[after]!.at_h
}

export function syntheticForecast(shape: SyntheticShape = 'bar'): Forecast {
  const course = samples()
  const core = course.map((sample) => sample.core)
  const spread = course.map((sample) => 0.4 + 1.6 * Math.exp(-(((sample.at_h - 60) / 45) ** 2)))
  const where = { x: 0.5, y: 0.55, z: 0.5 }
  const frozen_h = crossing(course, -12)
  const cooled_h = crossing(course, 5) ?? 0
  return {
    title: syntheticPlan.title,
    model: {
      dimensions: shape === 'sheet' || shape === 'ball' ? 1 : 2,
      cells: 504,
      steps: 812,
      wall_ms: 41,
      energyResidual: 3e-10,
      fidelity: 'standard',
      bands: 'own',
      error_K: { mean: 0.04, largest: 0.18 },
      notes: [message('ends-ignored', { ratio: 6, of: 'thick' })],
    },
    times_h: course.map((sample) => sample.at_h),
    curves: {
      core,
      surface: course.map((sample) => sample.surface),
      mean: course.map((sample) => 0.6 * sample.core + 0.4 * sample.surface),
      air: course.map((sample) => sample.air),
      'probe:rim': course.map((sample) => (sample.at_h < 1 ? null : 0.35 * sample.core + 0.65 * sample.surface)),
    },
    bands: {
      core: {
        low: core.map((value, index) => value - spread[index]!),
        high: core.map((value, index) => value + spread[index]!),
      },
    },
    stages: stages.map((stage) => ({
      name: stage.name,
      from_h: stage.from_h,
      to_h: stage.to_h,
      endedBy: 'after_h' as const,
    })),
    answers: [
      {
        target: 'frozen',
        index: 0,
        answer: 'not yet',
        at_h: frozen_h ?? 140,
        early_h: (frozen_h ?? 140) - 9,
        late_h: (frozen_h ?? 140) + 10,
        by_h: 136,
        margin_h: 136 - (frozen_h ?? 140),
        where,
        layer: 'fill[0]',
        why: message('default-used', { field: 'stages[0].in', value: '5 W/m²K' }),
      },
      {
        target: 'cooled',
        index: 1,
        answer: 'yes',
        at_h: cooled_h,
        early_h: cooled_h - 2,
        late_h: cooled_h + 2.5,
        by_h: 64,
        margin_h: 64 - cooled_h,
        where,
        layer: 'fill[0]',
        why: message('default-used', { field: 'stages[0].in', value: '5 W/m²K' }),
      },
    ],
    safety: [
      {
        rule: 'rule-a',
        title: 'A cooling rule in two steps',
        answer: 'does not meet',
        steps: [
          {
            from_C: 57,
            to_C: 21,
            within_h: 2,
            counts: 'fall',
            taken_h: 19.5,
            early_h: 18.5,
            late_h: 20.5,
            outcome: 'fail',
          },
          { from_C: 57, to_C: 5, within_h: 6, counts: 'fall', taken_h: 33, outcome: 'fail' },
        ],
        worst: { where, layer: 'fill[0]', margin_h: -17.5 },
        core: { where, answer: 'does not meet' },
        why: message('default-used', { field: 'rules', value: 'rule-a' }),
        notes: [],
        source: 'a source',
      },
    ],
    growth: [],
    killing: [],
    danger: { low_C: 5, high_C: 60, longest_h: 33.7, where: { x: 0.5, y: 0.2, z: 0.5 }, layer: 'fill[0]', core_h: 33 },
    core: { where, layer: 'fill[0]', depth_m: 0.09 },
    cautions: [message('ends-ignored', { ratio: 6, of: 'thick' })],
    carried: [],
    coats: [],
    surroundings: [],
    appliances: [],
    quantities: { mass_kg: 78.2, volume_m3: 0.07, layers: [], heat_MJ: 21, shelf_kg_m2: 210 },
    film: films(shape, course),
  }
}
