import { airAt } from '../boundary/air.ts'
import type { Appliance } from '../boundary/appliance.ts'
import { restingState } from '../boundary/appliance.ts'
import { evaporation, latentHeat, vapourFilm } from '../boundary/evaporation.ts'
import { forcedFilm, naturalFilm } from '../boundary/film-laws.ts'
import { nusseltPlateLaminar, nusseltPlateQuiet } from '../boundary/forced/plate.ts'
import { type LumpedMoment, runLumped } from '../boundary/lumped-piece.ts'
import { nusseltStablePlate, nusseltUnstablePlate } from '../boundary/natural/level-plate.ts'
import { nusseltVerticalPlate, nusseltVerticalPlateLaminar } from '../boundary/natural/vertical-plate.ts'
import { dewPoint, type Humidity, vapourPressure, wetBulb } from '../boundary/psychrometrics.ts'
import { effectiveEmissivity, radiativeFilm, viewFactorFacingRectangles } from '../boundary/radiation.ts'
import { flatConductance, roundConductance } from '../boundary/series.ts'
import { filmOf, rayleigh, reynolds } from '../boundary/similarity.ts'
import { humidityRatio, saturationPressure } from '../materials/vapour.ts'
import { fromHours, HOUR, toHours } from '../units.ts'
import { z } from '../zod.ts'

/* One kind of vector each: its inputs, and the figures by name that the laws make of them. */

/** Figure of this name; undefined where there is none. */
export type Figures = (name: string) => number | undefined
/** Figures of each case of a vector; undefined where the inputs have another form. */
type Kind = (inputs: unknown) => Figures[] | undefined

const named = (figures: Readonly<Record<string, number>>): Figures => {
  return (name) => (Object.hasOwn(figures, name) ? figures[name] : undefined)
}

/** Ties a kind's inputs to what is made of them. */
function kind<Inputs>(
  schema: { safeParse(data: unknown): { success: true; data: Inputs } | { success: false } },
  make: (inputs: Inputs) => Figures[],
): Kind {
  return (inputs) => {
    const parsed = schema.safeParse(inputs)
    return parsed.success ? make(parsed.data) : undefined
  }
}

const number = z.number()
const dry = (T_C: number) => ({ T_C, vapour: 0 })
/** Still air at a surface: the group that lifts it, on a length. */
function rising(surface_C: number, air_C: number, length: number) {
  const film = airAt((surface_C + air_C) / 2)
  const contrast = Math.abs(surface_C - air_C) / ((surface_C + air_C) / 2 + 273.15)
  return { film, Ra: rayleigh(film, contrast, length) }
}

const airProperties = kind(z.looseObject({ t_C: z.array(number), p_Pa: number }), ({ t_C, p_Pa }) =>
  t_C.map((t) => {
    const { rho, mu, k, c, nu, Pr } = airAt(t, p_Pa)
    return named({ rho_kg_m3: rho, mu_Pa_s: mu, k_W_mK: k, cp_J_kgK: c, nu_m2_s: nu, Pr })
  }),
)

const verticalPlate = kind(
  z.looseObject({ surface_C: number, air_C: number, height_m: number, width_m: number }),
  ({ surface_C, air_C, height_m, width_m }) => {
    const { Ra } = rising(surface_C, air_C, height_m)
    const shape = { kind: 'upright', height: height_m, along: height_m } as const
    const h = naturalFilm(shape, dry(surface_C), dry(air_C))
    return [named({ Ra, h_W_m2K: h, heat_W: h * height_m * width_m * Math.abs(surface_C - air_C) })]
  },
)

const boxFaces = kind(
  z.looseObject({ surface_C: number, air_C: number, height_m: number, width_m: number }),
  ({ surface_C, air_C, height_m, width_m }) => {
    const side = rising(surface_C, air_C, height_m)
    // A long strip: area over perimeter is half its width.
    const plan = width_m / 2
    const level = rising(surface_C, air_C, plan)
    const h_side_laminar = filmOf(nusseltVerticalPlateLaminar(side.Ra, side.film.Pr), side.film, height_m)
    const h_side_all_Ra = filmOf(nusseltVerticalPlate(side.Ra, side.film.Pr), side.film, height_m)
    const h_top = filmOf(nusseltUnstablePlate(level.Ra), level.film, plan)
    const h_bottom = filmOf(nusseltStablePlate(level.Ra), level.film, plan)
    const around = 2 * h_side_laminar * height_m + (h_top + h_bottom) * width_m
    const heat = around * Math.abs(surface_C - air_C)
    return [
      named({
        h_side_laminar,
        h_side_all_Ra,
        h_top,
        h_bottom,
        heat_W_per_m_with_laminar_sides: heat,
        heat_W_per_m: heat,
      }),
    ]
  },
)

const cylinderWithRadiation = kind(
  z.looseObject({ surface_C: number, air_C: number, walls_C: number, diameter_m: number, emissivity: number }),
  ({ surface_C, air_C, walls_C, diameter_m, emissivity }) => {
    const h_conv = naturalFilm({ kind: 'cylinder', diameter: diameter_m }, dry(surface_C), dry(air_C))
    const h_rad = radiativeFilm(emissivity, surface_C, walls_C)
    const convection_W_per_m = Math.PI * diameter_m * h_conv * (surface_C - air_C)
    const radiation_W_per_m = Math.PI * diameter_m * h_rad * (surface_C - walls_C)
    const heat_W_per_m = convection_W_per_m + radiation_W_per_m
    return [named({ h_conv, h_rad, convection_W_per_m, radiation_W_per_m, heat_W_per_m })]
  },
)

const forcedCylinder = kind(
  z.looseObject({ surface_C: number, air_C: number, speed_m_s: number, diameter_m: number }),
  ({ surface_C, air_C, speed_m_s, diameter_m }) => {
    const film = airAt((surface_C + air_C) / 2)
    const h = forcedFilm({ kind: 'cylinder', diameter: diameter_m }, speed_m_s, surface_C, air_C)
    return [
      named({
        Re: reynolds(film, speed_m_s, diameter_m),
        Nu: (h * diameter_m) / film.k,
        h_W_m2K: h,
        heat_W_per_m: Math.PI * diameter_m * h * (surface_C - air_C),
      }),
    ]
  },
)

const plateThroughTransition = kind(
  z.looseObject({ surface_C: number, air_C: number, speed_m_s: number, strip_m: number, width_m: number }),
  ({ surface_C, air_C, speed_m_s, strip_m, width_m }) => {
    const film = airAt((surface_C + air_C) / 2)
    const meanOver = (strips: number): number => {
      const length = strips * strip_m
      return filmOf(nusseltPlateQuiet(reynolds(film, speed_m_s, length), film.Pr), film, length)
    }
    const strip = (index: number): number => {
      const before = index === 1 ? 0 : meanOver(index - 1) * (index - 1)
      return (meanOver(index) * index - before) * strip_m * width_m * (surface_C - air_C)
    }
    const first = filmOf(nusseltPlateLaminar(reynolds(film, speed_m_s, strip_m), film.Pr), film, strip_m)
    return [
      (name) => {
        if (name === 'h_first_strip') return first
        const mean = /^mean_h_over_(\d+)$/.exec(name)?.[1]
        if (mean !== undefined) return meanOver(Number(mean))
        const one = /^q(\d+)_W$/.exec(name)?.[1]
        return one === undefined ? undefined : strip(Number(one))
      },
    ]
  },
)

const radiationInputs = z.looseObject({
  a: z.looseObject({ eps1: number, eps2: number, A1_over_A2: number, t1_C: number, t2_C: number }).exactOptional(),
  b: z.looseObject({ square_plates_side_over_gap: number }).exactOptional(),
  c: z.record(z.string(), number).exactOptional(),
})
const radiation = kind(radiationInputs, ({ a, b, c }) => {
  const figures: Record<string, number> = {}
  if (a !== undefined) {
    const emissivity = effectiveEmissivity(a.eps1, a.eps2, a.A1_over_A2)
    figures.a_eps_eff = emissivity
    figures.a_h_rad = radiativeFilm(emissivity, a.t1_C, a.t2_C)
    figures.a_flux_W_m2 = figures.a_h_rad * (a.t2_C - a.t1_C)
  }
  if (b !== undefined) {
    const side = b.square_plates_side_over_gap
    figures.b_F12 = viewFactorFacingRectangles(side, side, 1)
  }
  // The sides stand in the name: plates_0.6x0.4_m_gap_m.
  for (const [key, gap] of Object.entries(c ?? {})) {
    const sides = /^plates_([\d.]+)x([\d.]+)_m_gap_m$/.exec(key)
    if (sides?.[1] !== undefined && sides[2] !== undefined)
      figures.c_F12 = viewFactorFacingRectangles(Number(sides[1]), Number(sides[2]), gap)
  }
  return [named(figures)]
})

const psychrometrics = kind(
  z.looseObject({
    p_Pa: number,
    cases: z.array(z.looseObject({ t_C: number, rh: number.exactOptional(), humidity_ratio: number.exactOptional() })),
  }),
  ({ p_Pa, cases }) =>
    cases.map(({ t_C, rh, humidity_ratio }) => {
      const humidity: Humidity = rh === undefined ? { kg_kg: humidity_ratio ?? 0 } : { relative: rh }
      const vapour = vapourPressure(humidity, t_C, p_Pa)
      const W = humidityRatio(vapour, p_Pa)
      return named({ humidity_ratio: W, dew_point_C: dewPoint(vapour), wet_bulb_C: wetBulb(t_C, W, p_Pa) })
    }),
)

const moistSurface = {
  surface_C: number,
  air_C: number,
  walls_C: number,
  rh: number,
  emissivity: number,
  water_activity: number,
}

/** Evaporation of a level or upright surface, kg/(m² s), and its films. */
function moistExchange(
  inputs: { surface_C: number; air_C: number; rh: number; water_activity: number },
  shape: Parameters<typeof naturalFilm>[0],
  pressure: number,
) {
  const { surface_C, air_C, rh, water_activity } = inputs
  const atSurface = water_activity * saturationPressure(surface_C)
  const inAir = rh * saturationPressure(air_C)
  const film_C = (surface_C + air_C) / 2
  const surface = { T_C: surface_C, vapour: atSurface }
  const h = naturalFilm(shape, surface, { T_C: air_C, vapour: inAir }, pressure)
  const m = evaporation(vapourFilm(h, film_C, pressure), atSurface, inAir, film_C)
  return { h, m, dew_C: dewPoint(inAir) }
}

const openHotWater = kind(
  z.looseObject({ ...moistSurface, p_Pa: number, area_m2: number, perimeter_m: number }),
  (inputs) => {
    const { surface_C, air_C, walls_C, emissivity, area_m2, perimeter_m, p_Pa } = inputs
    const ratio = area_m2 / perimeter_m
    const shape = { kind: 'up', areaOverPerimeter: ratio, along: ratio } as const
    const { h, m } = moistExchange(inputs, shape, p_Pa)
    const convection_W = h * area_m2 * (surface_C - air_C)
    const evaporation_W = m * area_m2 * latentHeat(surface_C)
    const radiation_W = radiativeFilm(emissivity, surface_C, walls_C) * area_m2 * (surface_C - walls_C)
    return [
      named({
        h_conv: h,
        evaporation_kg_h: m * area_m2 * HOUR,
        convection_W,
        evaporation_W,
        radiation_W,
        total_W: convection_W + evaporation_W + radiation_W,
      }),
    ]
  },
)

const condensation = kind(z.looseObject({ ...moistSurface, height_m: number }), (inputs) => {
  const { surface_C, air_C, walls_C, emissivity, height_m } = inputs
  const { h, m, dew_C } = moistExchange(inputs, { kind: 'upright', height: height_m, along: height_m }, 101325)
  return [
    named({
      dew_point_C: dew_C,
      h_conv: h,
      condensation_kg_m2h: -m * HOUR,
      latent_W_m2: -m * latentHeat(surface_C),
      convection_W_m2: h * (air_C - surface_C),
      radiation_W_m2: radiativeFilm(emissivity, surface_C, walls_C) * (walls_C - surface_C),
    }),
  ]
})

const stack = z.looseObject({
  h_out: number,
  r_in_m: number.exactOptional(),
  layers_m_WmK: z.array(z.tuple([number, number])),
  contact_m2K_W: z.array(number).exactOptional(),
})
const layers = kind(z.record(z.string(), stack), (inputs) => {
  const figures: Record<string, number> = {}
  for (const [letter, { h_out, r_in_m, layers_m_WmK, contact_m2K_W = [] }] of Object.entries(inputs)) {
    const crossed = layers_m_WmK.map(([thickness, k]) => ({ thickness, k }))
    if (r_in_m === undefined) figures[`${letter}_U`] = flatConductance(h_out, crossed, contact_m2K_W)
    else figures[`${letter}_U_per_inside_area`] = roundConductance(h_out, r_in_m, crossed)
  }
  return [named(figures)]
})

/** Longest course of the lumped freezer that is asked for, h, and its step, s. */
const LONGEST_H = 240
const FREEZER_STEP = 30

const freezerInputs = z.looseObject({
  piece: z.looseObject({ mass_kg: number, c_J_kgK: number, start_C: number, hA_W_K: number }),
  set_C: number,
  capacity_W_at_set: number,
  capacity_slope_per_K: number,
  UA_W_K: number,
  room_C: number,
})
const freezer = kind(freezerInputs, (inputs) => {
  const plain = freezerCourse(inputs)
  let without: Figures | undefined
  return [
    (name) => {
      if (!name.startsWith('b_')) return plain(name)
      without ??= freezerCourse({ ...inputs, capacity_slope_per_K: 0, UA_W_K: 0 })
      return without(name.slice(2))
    },
  ]
})

function freezerCourse(inputs: z.infer<typeof freezerInputs>): Figures {
  const { piece, set_C, capacity_W_at_set, capacity_slope_per_K, UA_W_K, room_C } = inputs
  const appliance: Appliance = {
    name: 'freezer',
    heat: 0,
    toRoom: UA_W_K,
    stores: [],
    machine: {
      kind: 'cooling',
      set_C,
      rated: capacity_W_at_set,
      rated_C: set_C,
      slope: capacity_slope_per_K,
      most: Number.POSITIVE_INFINITY,
    },
    fan: 0,
    room_C,
    openings: [],
  }
  const load = { heat: piece.mass_kg * piece.c_J_kgK, film: piece.hA_W_K, start_C: piece.start_C }
  const moments: LumpedMoment[] = []
  /** Runs on until a moment is reached; further figures read what is there. */
  const until = (done: (moment: LumpedMoment) => boolean): readonly [LumpedMoment, LumpedMoment] | undefined => {
    if (moments.length === 0)
      runLumped(appliance, restingState(appliance), load, fromHours(LONGEST_H), FREEZER_STEP, (moment) => {
        moments.push(moment)
        return false
      })
    const at = moments.findIndex(done)
    const [before, after] = [moments[Math.max(0, at - 1)], moments[at]]
    return at < 0 || before === undefined || after === undefined ? undefined : [before, after]
  }
  const share = (value: number, from: number, to: number): number => (to === from ? 1 : (value - from) / (to - from))
  const readAt = (hours: number, of: (moment: LumpedMoment) => number): number | undefined => {
    const found = until((moment) => moment.t >= fromHours(hours) - 1e-6)
    if (found === undefined) return undefined
    const [before, after] = found
    return of(before) + share(fromHours(hours), before.t, after.t) * (of(after) - of(before))
  }
  return (name) => {
    if (name === 'first_air_C') return readAt(0, (moment) => moment.appliance.air_C)
    if (name === 'piece_C_when_air_reaches_set') {
      const found = until((moment) => moment.appliance.air_C <= set_C + 1e-9)
      return found?.[1].piece_C
    }
    const after = /^(piece|air)_C_after_([\d.]+)_h$/.exec(name)
    if (after?.[2] !== undefined)
      return readAt(Number(after[2]), (moment) => (after[1] === 'air' ? moment.appliance.air_C : moment.piece_C))
    const to = /^hours_to_(-?[\d.]+)_C$/.exec(name)?.[1]
    if (to === undefined) return undefined
    const found = until((moment) => moment.piece_C <= Number(to))
    if (found === undefined) return undefined
    const [low, high] = found
    return toHours(low.t + share(Number(to), low.piece_C, high.piece_C) * (high.t - low.t))
  }
}

/** Kinds of vectors by name; one more is one line. */
export const kinds: Readonly<Record<string, Kind>> = {
  'air-properties': airProperties,
  'natural-vertical-plate': verticalPlate,
  'natural-box-faces': boxFaces,
  'horizontal-cylinder-with-radiation': cylinderWithRadiation,
  'forced-cylinder': forcedCylinder,
  'forced-plate-through-transition': plateThroughTransition,
  radiation,
  psychrometrics,
  'open-hot-water': openHotWater,
  'condensation-on-a-cold-piece': condensation,
  layers,
  'capacity-limited-freezer': freezer,
}
