import { describe, expect, test } from 'vitest'
import type { FaceCondition, LawFace } from '../../src/core/boundary/face.ts'
import type { Machine } from '../../src/core/boundary/machine.ts'
import { type Body, elementaryFaces } from '../../src/core/geometry/body.ts'
import { barBody } from '../../src/core/geometry/shapes/bar.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { troughBody } from '../../src/core/geometry/shapes/trough.ts'
import type { Course } from '../../src/core/journey/course.ts'
import type { Job, Stage } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { getWall, type Wall } from '../../src/core/materials/wall.ts'
import { sheathe } from '../../src/core/plan/sheath.ts'
import { around, cabinet, freezerMachine, inRoom, plainFace } from './appliance-jobs.ts'
import { cream, hours, insulated, jobOf, read } from './jobs.ts'

/* Moulds, boards and lids that hold heat, against what doesn't know of them: meshed layers and heat balances. */

const stoneware: Wall = { ...getWall('stone'), title: 'Stoneware', k: 1.2, rho: 2300, c: 840 }

/** A face of one film behind a wall that holds heat. */
function walled(body: Body, face: string, wall: Wall, thickness: number, h: number, start_C?: number): LawFace {
  const holds = { layer: 'mould[0]', ...(start_C === undefined ? {} : { start_C }) }
  return { ...plainFace(h), ...sheathe(body, face, [{ wall, thickness, holds }]) }
}

const stageOf = (faces: Stage['faces'], air_C: number, h: number, over: Partial<Stage> = {}): Stage => ({
  name: 'stage',
  start: [],
  faces,
  air_C: { at: () => air_C, range: [air_C, air_C], breaks: [], curved: false },
  until: { after: hours(h), max: hours(h) },
  ...over,
})

describe('against the same wall meshed as a layer of the piece', () => {
  const body = sheetBody({ area: 1 })
  const slab = (wall: Wall, thickness: number, start_C: number, air_C: number, until: number): [Course, Course] => {
    const face = inRoom(walled(body, 'top', wall, thickness, 9, start_C), air_C)
    const job = jobOf(body, cream, 0.08, 80, [stageOf({ top: face, bottom: insulated }, air_C, until)])
    const meshed: Job = {
      ...jobOf(body, cream, 0.08, 80, [stageOf({ top: inRoom(plainFace(9), air_C), bottom: insulated }, air_C, until)]),
      fill: [
        { name: 'fill[0]', material: cream, thickness: 0.08, start_C: 80 },
        { name: 'fill[1]', material: fixedMaterial(wall), thickness, start_C },
      ],
    }
    return [runJourney(job, { fidelity: 'fine' }), runJourney(meshed, { fidelity: 'fine' })]
  }

  test.each([
    ['stoneware of 12 mm, chilled to -18 °C', stoneware, 0.012, -18, 20, 12],
    ['granite of 30 mm', getWall('stone'), 0.03, 5, 4, 12],
    ['plywood of 18 mm', getWall('plywood'), 0.018, 20, -20, 12],
    ['PVC of 8 mm', getWall('pvc'), 0.008, 20, -20, 12],
    ['aluminium of 5 mm', getWall('aluminium'), 0.005, 20, -20, 1],
    ['silicone of 4 mm', getWall('silicone'), 0.004, 20, 4, 12],
  ])('%s', (_, wall, thickness, start_C, air_C, until) => {
    const [chain, mesh] = slab(wall, thickness, start_C, air_C, until)
    // Hottest place after hours, and heat that passed: 0.02 K of 60 to 100, the slices of the chain and both grids.
    for (const h of [0.1, 0.25, 0.5, 1, 2, 4, 8, 12].filter((one) => one <= until)) {
      expect(Math.abs(read(chain, chain.hottest_C, h) - read(mesh, mesh.hottest_C, h)), `${h} h`).toBeLessThan(0.02)
    }
    expect(chain.energyResidual).toBeLessThan(1e-8)
    expect(chain.around!.residual).toBeLessThan(1e-8)
  })
})

describe('nothing passes outside: piece and wall come to what their heat tells', () => {
  const c = cream.density * cream.at(20).c
  const { rho, c: own } = stoneware
  const wall = rho * own
  const d = 0.01
  const sized = (body: Body, names: readonly string[], of: Wall, thickness: number): Record<string, FaceCondition> =>
    Object.fromEntries(
      elementaryFaces(body).map((face) => [
        face,
        names.includes(face) ? inRoom(walled(body, face, of, thickness, 0, 20), 20) : insulated,
      ]),
    )
  const steel = getWall('stainless')
  const [r, h] = [0.06, 0.06]
  test.each([
    ['sheet', sheetBody({ area: 1 }), 0.05, ['top'], stoneware, d, c * 0.05, wall * d],
    ['thin metal', sheetBody({ area: 1 }), 0.02, ['top'], steel, 0.002, c * 0.02, steel.rho * steel.c * 0.002],
    ['bar', barBody({ width: 0.1, length: 1 }), h, ['left', 'right'], stoneware, d, c * 0.1 * h, wall * 2 * d * h],
    [
      ...(['round', roundBody({ diameter: 2 * r }), h, ['sides', 'bottom'], stoneware, d] as const),
      c * Math.PI * r * r * h,
      wall * Math.PI * (r * r * d + ((r + d) ** 2 - r * r) * h),
    ],
    [
      ...(['trough', troughBody({ radius: r, length: 1 }), null, ['curved'], stoneware, d] as const),
      (c * Math.PI * r * r) / 2,
      (wall * Math.PI * ((r + d) ** 2 - r * r)) / 2,
    ],
  ] as const)('%s', (_, body, height, names, of, thickness, piece, around) => {
    const course = runJourney(jobOf(body, cream, height, 80, [stageOf(sized(body, names, of, thickness), 20, 60)]), {
      fidelity: 'standard',
    })
    const expected = (80 * piece + 20 * around) / (piece + around)
    // What is left of the differences after 60 h, and the area of the slices' middles: 1e-3 K of 60.
    expect(Math.abs(course.mean_C.at(-1)! - expected)).toBeLessThan(1e-3)
    expect(Math.abs(course.hottest_C.at(-1)! - expected)).toBeLessThan(1e-2)
    expect(course.energyResidual).toBeLessThan(1e-8)
    expect(course.around!.residual).toBeLessThan(1e-8)
  })
})

describe('in an appliance', () => {
  const body = roundBody({ diameter: 0.24 })
  const freezer = (pieces?: number) =>
    around(
      cabinet({ ...freezerMachine(90), band: 2 } as Machine, {
        stores: [{ name: 'liner', heat: 18e3, toAir: 15, toRoom: 0.65 }],
      }),
      {
        ...(pieces === undefined ? {} : { pieces }),
      },
    )
  const journey = (pieces?: number): Course => {
    const faces = Object.fromEntries(
      elementaryFaces(body).map((face) => [face, { ...walled(body, face, stoneware, 0.012, 8, 20), emissivity: 0.9 }]),
    )
    const bare = Object.fromEntries(elementaryFaces(body).map((face) => [face, { ...plainFace(8), emissivity: 0.9 }]))
    const appliance = freezer(pieces)
    return runJourney(
      jobOf(body, cream, 0.1, 60, [
        stageOf(faces, -18, 4, { appliance }),
        // Out of its mould, and on.
        stageOf(bare, -18, 12, { appliance, start: [{ do: 'unmould', title: 'out' }] }),
      ]),
      { fidelity: 'quick' },
    )
  }

  test('a thermostat that switches, a wall that goes: all heat is booked', () => {
    const course = journey()
    expect(course.energyResidual).toBeLessThan(1e-8)
    expect(course.around!.residual).toBeLessThan(1e-8)
  })

  test('two pieces load it twice', () => {
    const [one, two] = [journey(), journey(2)]
    expect(Math.max(...two.air_C)).toBeGreaterThan(Math.max(...one.air_C) + 2)
    expect(two.energyResidual).toBeLessThan(1e-8)
    const machine = (course: Course): number => course.around!.appliances[0]!.heat.piece
    expect(machine(two) / machine(one)).toBeGreaterThan(1.7)
    expect(machine(two) / machine(one)).toBeLessThan(2)
  })
})

test('a layer goes on from stage to stage with its heat: in two halves as in one', () => {
  const body = sheetBody({ area: 1 })
  const faces = { top: inRoom(walled(body, 'top', stoneware, 0.02, 9, -18), 20), bottom: insulated }
  const one = runJourney(jobOf(body, cream, 0.05, 80, [stageOf(faces, 20, 2)]), { fidelity: 'fine' })
  const two = runJourney(jobOf(body, cream, 0.05, 80, [stageOf(faces, 20, 0.2), stageOf(faces, 20, 1.8)]), {
    fidelity: 'fine',
  })
  for (const at of [0.5, 1, 2])
    expect(Math.abs(read(one, one.mean_C, at) - read(two, two.mean_C, at))).toBeLessThan(0.02)
})
