import type { Appliance, StageAppliance } from '../../src/core/boundary/appliance.ts'
import type { LawFace } from '../../src/core/boundary/face.ts'
import { airFilm, type FilmShape } from '../../src/core/boundary/film-laws.ts'
import type { Machine } from '../../src/core/boundary/machine.ts'
import { steady } from '../../src/core/boundary/profile.ts'
import type { Humidity } from '../../src/core/boundary/psychrometrics.ts'

/* Builders of law faces and appliances for the physics tests. */

const shapes = {
  top: { kind: 'up', areaOverPerimeter: 0.1, along: 0.4 },
  bottom: { kind: 'down', areaOverPerimeter: 0.1, along: 0.4 },
  sides: { kind: 'upright', height: 0.12, along: 0.4 },
} as const satisfies Record<string, FilmShape>

interface LawOptions {
  readonly speed?: number
  readonly emissivity?: number
  readonly open?: boolean
  readonly R?: number
}

/** A face in the stage's appliance, its film by law. */
export function lawFace(
  shape: FilmShape,
  { speed = 0.1, emissivity = 0.9, open = false, R = 0 }: LawOptions = {},
): LawFace {
  return {
    kind: 'law',
    film: (surface, air) => airFilm(shape, speed, surface, air),
    key: JSON.stringify([shape, speed]),
    resistances: R === 0 ? [] : [{ name: 'wall', R }],
    spread: 1,
    emissivity,
    open,
  }
}

/** A film of its own, without radiation. */
export const plainFace = (h: number): LawFace => ({
  kind: 'law',
  film: () => h,
  key: String(h),
  resistances: [],
  spread: 1,
  emissivity: 0,
  open: false,
})

/** Law faces all round: top, bottom, and sides by any other name. */
export function lawFaces(names: readonly string[], options: LawOptions = {}): Record<string, LawFace> {
  return Object.fromEntries(
    names.map((name) => [name, lawFace(name === 'top' || name === 'bottom' ? shapes[name] : shapes.sides, options)]),
  )
}

/** The same faces in a room of given air. */
export const inRoom = (face: LawFace, air_C: number, humidity?: Humidity, walls_C = air_C): LawFace => ({
  ...face,
  ambient: { air_C: steady(air_C), walls_C: steady(walls_C), ...(humidity === undefined ? {} : { humidity }) },
})

export const freezerMachine = (rated: number, set_C = -18, most = 2): Machine => ({
  kind: 'cooling',
  set_C,
  rated,
  rated_C: set_C,
  slope: 0.04,
  most,
})

export function cabinet(machine: Machine, over: Partial<Appliance> = {}): Appliance {
  return { name: 'cabinet', heat: 0, toRoom: 0, stores: [], machine, fan: 0, room_C: 22, openings: [], ...over }
}

/** A chest freezer: liner, walls, a little compressor. */
export const chest = (rated = 80): Appliance =>
  cabinet(freezerMachine(rated), { stores: [{ name: 'liner', heat: 18e3, toAir: 15, toRoom: 0.65 }] })

export const oven = (machine: Machine, over: Partial<Appliance> = {}): Appliance => ({
  name: 'oven',
  heat: 5.5e3,
  toRoom: 0.8,
  stores: [{ name: 'shell', heat: 20e3, toAir: 8, toRoom: 3 }],
  machine,
  fan: 0,
  room_C: 20,
  openings: [],
  ...over,
})

export const around = (appliance: Appliance, over: Partial<StageAppliance> = {}): StageAppliance => ({
  appliance,
  wallsShift_K: 0,
  vapour: 'coil',
  ...over,
})
