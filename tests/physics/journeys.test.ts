import { describe, expect, test } from 'vitest'
import type { FaceCondition } from '../../src/core/boundary/face.ts'
import { type Body, elementaryFaces } from '../../src/core/geometry/body.ts'
import type { Layer } from '../../src/core/geometry/layer.ts'
import { barBody } from '../../src/core/geometry/shapes/bar.ts'
import { blockBody } from '../../src/core/geometry/shapes/block.ts'
import { domeBody } from '../../src/core/geometry/shapes/dome.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { troughBody } from '../../src/core/geometry/shapes/trough.ts'
import { chooseAxes } from '../../src/core/journey/axes-left-out.ts'
import type { Action, Job, Stage } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import type { Material } from '../../src/core/materials/material.ts'
import { air, cream, freezingCustard, hours, insulated, jobOf, read, stage } from './jobs.ts'

const middle = { x: 0.5, y: 0.5, z: 0.5 }
const chocolate = fixedMaterial({ id: 'chocolate', title: 'Chocolate', k: 0.24, rho: 1270, c: 1900 })
const sponge = fixedMaterial({ id: 'sponge', title: 'Sponge', k: 0.1, rho: 300, c: 2400 })

const layer = (name: string, material: Material, thickness: number, start_C: number): Layer => ({
  name,
  material,
  thickness,
  start_C,
})

const doing = (one: Stage, ...start: Action[]): Stage => ({ ...one, start })

const withCut = (one: Stage, condition: FaceCondition): Stage => ({ ...one, faces: { ...one.faces, cut: condition } })

describe('a layer of one cell stands for its heat and its resistance', () => {
  // The same layer as twelve that are each thinner than can be felt: what a fine grid through it gives.
  const body = barBody({ width: 0.2, length: 1 })
  const parts = (thickness: number, count: number): Layer[] =>
    Array.from({ length: count }, (_, i) => layer(`fill[${i + 1}]`, chocolate, thickness / count, 34))
  const course = (top: Layer[]) =>
    runJourney(
      {
        body,
        lining: [],
        fill: [layer('fill[0]', cream, 0.06, -12), ...top],
        probes: [],
        stages: [stage(body, air(10, 20), 3)],
      },
      { fidelity: 'standard' },
    )

  test.each([0.001, 0.0015, 0.002])('%f m of chocolate on a cold cream', (thickness) => {
    const [one, many] = [course(parts(thickness, 1)), course(parts(thickness, 12))]
    expect(one.segments[0]!.mesh.n[1]).toBeLessThan(many.segments[0]!.mesh.n[1])
    for (const h of [0.25, 0.5, 1, 3]) {
      expect(Math.abs(read(one, one.mean_C, h) - read(many, many.mean_C, h))).toBeLessThan(0.02)
      expect(Math.abs(read(one, one.surface_C, h) - read(many, many.surface_C, h))).toBeLessThan(0.1)
    }
  })
})

describe('coats', () => {
  test('a coat has the volume of what lies around the piece, corners too', () => {
    const body = blockBody({ width: 0.1, length: 0.2 })
    const faces = elementaryFaces(body).filter((face) => face !== 'bottom')
    const coat = layer('coat', chocolate, 0.002, 34)
    const job = jobOf(body, cream, 0.05, -12, [
      doing(stage(body, air(10, -18), 0.2), { do: 'coat', layer: coat, faces }),
    ])
    const course = runJourney(job, { fidelity: 'quick' })
    const { mesh } = course.segments.at(-1)!
    const own = mesh.layers.indexOf(coat)
    let volume = 0
    for (let cell = 0; cell < mesh.cells; cell++) if (mesh.layerOf[cell] === own) volume += mesh.volume[cell]!
    expect((volume * mesh.measure) / (0.104 * 0.204 * 0.052 - 0.1 * 0.2 * 0.05)).toBeCloseTo(1, 9)
    const top = mesh.boundary.reduce((sum, link) => sum + (link.face === 'top' ? link.area : 0), 0)
    expect((top * mesh.measure) / (0.104 * 0.204)).toBeCloseTo(1, 9)
  })

  test('warm chocolate on a frozen heart in still insulation: both end at the temperature of their heats', () => {
    const body = troughBody({ radius: 0.08, length: 1 })
    const coat = layer('coat', chocolate, 0.003, 40)
    const job = jobOf(body, cream, null, -20, [
      doing(stage(body, insulated, 300), { do: 'coat', layer: coat, faces: ['curved', 'top'] }),
    ])
    const course = runJourney(job, { fidelity: 'quick' })
    const half = Math.PI / 2
    const heart = half * 0.08 ** 2
    // Round the arc a shell, on the flat a slab as wide as both.
    const shell = half * (0.083 ** 2 - 0.08 ** 2) + 2 * 0.083 * 0.003
    const [own, other] = [heart * 1050 * 3500, shell * 1270 * 1900]
    const mixed = (own * -20 + other * 40) / (own + other)
    expect(Math.abs(course.mean_C.at(-1)! - mixed)).toBeLessThan(1e-6)
    expect(Math.abs(course.hottest_C.at(-1)! - mixed)).toBeLessThan(0.01)
    // Nothing crosses a face, so it is measured against a kelvin of the whole piece.
    expect(course.energyResidual).toBeLessThan(1e-9)
  })

  test('three coats on each other are one of thrice the thickness, once they are equally warm', () => {
    const body = domeBody({ radius: 0.07 })
    const coats = (count: number, thickness: number): Action[] =>
      Array.from({ length: count }, (_, i) => ({
        do: 'coat',
        layer: layer(`coat ${i}`, chocolate, thickness, -12),
        faces: ['curved'],
      }))
    const run = (actions: Action[]) =>
      runJourney(jobOf(body, cream, null, -12, [doing(stage(body, air(12, 15), 2), ...actions)]), {
        fidelity: 'standard',
      })
    const [thrice, once] = [run(coats(3, 0.0015)), run(coats(1, 0.0045))]
    expect(Math.abs(read(thrice, thrice.mean_C, 2) - read(once, once.mean_C, 2))).toBeLessThan(0.02)
  })
})

describe('turning over', () => {
  test.each([
    ['bar', barBody({ width: 0.2, length: 1 }), 0.1],
    ['round', roundBody({ diameter: 0.2 }), 0.1],
  ] as const)('%s: nothing changes but what lies at each face', (_, body, height) => {
    const warm = { top: air(30, 60), bottom: air(3, 0) }
    const cold = { top: air(3, 0), bottom: air(30, 60) }
    // Faces belong to the piece: after turning, what was its top takes the surroundings of the bottom.
    const turned = jobOf(body, freezingCustard, height, 20, [
      stage(body, air(10, 10), 1, warm),
      doing(stage(body, air(10, 10), 2, cold), { do: 'turn' }),
    ])
    const kept = jobOf(body, freezingCustard, height, 20, [
      stage(body, air(10, 10), 1, warm),
      stage(body, air(10, 10), 2, cold),
    ])
    const [one, other] = [runJourney(turned, { fidelity: 'quick' }), runJourney(kept, { fidelity: 'quick' })]
    expect(one.segments.map(({ turned: lies }) => lies)).toEqual([false, true])
    for (const y of [0.05, 0.4, 0.9]) {
      const place = { x: 0.6, y, z: 0.5 }
      expect(one.follow(place).at(-1)!).toBeCloseTo(other.follow(place).at(-1)!, 9)
    }
  })

  test('a layer laid on a piece that was turned over lies on what was its bottom', () => {
    const body = barBody({ width: 0.2, length: 1 })
    const lid = layer('lid', sponge, 0.02, 30)
    const job: Job = jobOf(body, cream, 0.1, 5, [
      stage(body, air(5, 5), 0.5),
      doing(stage(body, air(5, 5), 1), { do: 'turn' }, { do: 'pour', layer: lid, end: 'low' }),
    ])
    const course = runJourney(job, { fidelity: 'quick' })
    const { mesh } = course.segments.at(-1)!
    const own = course.places().filter((place) => place.layer === 'lid')
    expect(own.length).toBeGreaterThan(0)
    // Of the box of 0.12 m the lid takes the sixth that was lowest at the start.
    for (const { where } of own) expect(where.y).toBeLessThan(0.02 / 0.12)
    expect(mesh.reference.bounds.high[1] - mesh.reference.bounds.low[1]).toBeCloseTo(0.12, 12)
    // A place of the old piece keeps its name and its course through it.
    const place = { x: 0.5, y: (0.02 + 0.05) / 0.12, z: 0.5 }
    expect(course.follow(place).every(Number.isFinite)).toBe(true)
    expect(course.follow({ x: 0.5, y: 0.05, z: 0.5 })[0]).toBeNaN()
  })
})

describe('cutting', () => {
  const body = blockBody({ width: 0.3, length: 0.3 })
  const warm = stage(body, air(20, 60), 2)
  const cut = (count: number): Action => ({
    do: 'cut',
    keep: [0, 2].map((axis) => ({ axis, low: 0.5 - 0.5 / count, high: 0.5 + 0.5 / count })),
    pieces: count * count,
  })

  test('every place keeps its temperature; the new faces are as warm as the inside was', () => {
    const after = withCut(doing(stage(body, air(8, 20), 1), cut(3)), air(8, 20))
    const job = jobOf(body, cream, 0.1, 5, [warm, after])
    const course = runJourney(job, { fidelity: 'fine' })
    const [before, then] = [course.stages[0]!.last, course.stages[1]!.first]
    for (const x of [0.4, 0.5, 0.65]) {
      const values = course.follow({ x, y: 0.5, z: 0.5 })
      expect(Math.abs(values[then]! - values[before]!)).toBeLessThan(0.1)
    }
    // What was cut off is gone.
    expect(course.follow({ x: 0.1, y: 0.5, z: 0.5 })[then]).toBeNaN()
    const { mesh } = course.segments.at(-1)!
    expect(mesh.volume.reduce((sum, volume) => sum + volume, 0) * mesh.measure).toBeCloseTo(0.3 * 0.3 * 0.1, 12)
    // The lower half is the mirror image of the upper one.
    expect(new Set(mesh.boundary.map(({ face }) => face))).toEqual(new Set(['cut', 'top']))
    expect(course.energyResidual).toBeLessThan(1e-10)
  })

  test('a cut of a uniform piece is a small piece from the start', () => {
    const pieces = withCut(doing(stage(body, air(8, 20), 3), cut(4)), air(8, 20))
    const whole = runJourney(jobOf(body, cream, 0.1, 5, [pieces]), { fidelity: 'standard' })
    const small = blockBody({ width: 0.075, length: 0.075 })
    const alone = runJourney(jobOf(small, cream, 0.1, 5, [stage(small, air(8, 20), 3)]), { fidelity: 'standard' })
    expect(Math.abs(read(whole, whole.mean_C, 3) - read(alone, alone.mean_C, 3))).toBeLessThan(0.02)
  })

  test('wedges of a round: volume and faces of a wedge, and the warming of its two cuts', () => {
    const round = roundBody({ diameter: 0.24 })
    const wedges: Action = {
      do: 'cut',
      keep: [{ axis: 2, low: 0.5 - 0.5 / 8, high: 0.5 + 0.5 / 8 }],
      pieces: 8,
    }
    const pieces = withCut(doing(stage(round, air(8, 20), 1), wedges), air(8, 20))
    const course = runJourney(jobOf(round, cream, 0.1, 5, [pieces]), { fidelity: 'quick' })
    const { mesh } = course.segments.at(-1)!
    expect(mesh.volume.reduce((sum, volume) => sum + volume, 0) * mesh.measure).toBeCloseTo(
      (Math.PI / 4) * 0.24 ** 2 * 0.1,
      9,
    )
    const cuts = mesh.boundary.reduce((sum, link) => sum + (link.face === 'cut' ? link.area : 0), 0)
    expect((cuts * mesh.measure) / (8 * 2 * 0.12 * 0.1)).toBeCloseTo(1, 9)
    const whole = runJourney(jobOf(round, cream, 0.1, 5, [stage(round, air(8, 20), 1)]), { fidelity: 'quick' })
    expect(course.mean_C.at(-1)!).toBeGreaterThan(whole.mean_C.at(-1)! + 0.5)
  })
})

describe('stages end by what they wait for, whichever comes first', () => {
  const body = barBody({ width: 0.12, length: 1 })
  const cooled = (until: Partial<Stage['until']>) =>
    runJourney(
      jobOf(body, cream, 0.08, 70, [{ ...stage(body, air(15, 4), 1), until: { max: hours(200), ...until } }]),
      { fidelity: 'quick' },
    )

  test.each([
    ['surface', { surface_C: 20 }, (course: ReturnType<typeof cooled>) => course.surface_C.at(-1)!, 20],
    ['mean', { mean_C: 15 }, (course: ReturnType<typeof cooled>) => course.mean_C.at(-1)!, 15],
    ['core', { core_C: 10 }, (course: ReturnType<typeof cooled>) => course.hottest_C.at(-1)!, 10],
    [
      'place',
      { place: { place: { x: 0.9, y: 0.9, z: 0.5 }, T_C: 25 } },
      (course: ReturnType<typeof cooled>) => course.follow({ x: 0.9, y: 0.9, z: 0.5 }).at(-1)!,
      25,
    ],
  ] as const)('%s', (by, until, value, asked) => {
    const course = cooled(until)
    expect(course.stages[0]!.endedBy).toBe(by)
    expect(Math.abs(value(course) - asked)).toBeLessThan(1e-3)
  })

  test('the earliest of several', () => {
    const [surface, core] = [cooled({ surface_C: 20 }), cooled({ core_C: 10 })]
    const both = cooled({ surface_C: 20, core_C: 10, after: hours(100) })
    expect(both.stages[0]!.endedBy).toBe('surface')
    // Steps are cut to end with the stage, so they differ a little.
    const earliest = Math.min(surface.stages[0]!.to, core.stages[0]!.to)
    expect(Math.abs(both.stages[0]!.to - earliest)).toBeLessThan(1e-4 * earliest)
    expect(cooled({ surface_C: 20, after: 60 }).stages[0]!.endedBy).toBe('after')
  })
})

describe('directions are left out by what that costs', () => {
  test.each([
    [0.9, 0.25, 0.1],
    [0.5, 0.2, 0.1],
    [0.3, 0.2, 0.1],
    [1.6, 1.2, 0.06],
  ])('block %f × %f × %f m: the estimate bounds what leaving a direction out does', (length, width, height) => {
    const body = blockBody({ width, length })
    const job = jobOf(body, cream, height, 70, [stage(body, air(12, 4), 12)])
    const choice = chooseAxes(job, 'standard')
    for (const { loss } of choice.leftOut) expect(loss).toBeLessThanOrEqual(0.005)
    if (choice.leftOut.length === 0) return
    const axes = body.axes.map((axis, index) => (choice.kept.includes(index) ? axis : { ...axis, idle: true }))
    const reduced = { ...job, body: { ...body, axes } }
    const [full, less] = [runJourney(job, { fidelity: 'standard' }), runJourney(reduced, { fidelity: 'standard' })]
    for (const h of [2, 5, 8]) {
      const [a, b] = [read(full, full.follow(middle), h), read(less, less.follow(middle), h)]
      expect(Math.abs(a - b)).toBeLessThan(0.005 * 66)
    }
  })

  const inAir = (body: Body, height: number): Job => jobOf(body, cream, height, 70, [stage(body, air(12, 4), 5)])

  test('all three are kept of a cube, one of a wide plate; a count that is asked for is kept', () => {
    const cube = inAir(blockBody({ width: 0.2, length: 0.2 }), 0.2)
    expect(chooseAxes(cube, 'standard').kept).toEqual([0, 1, 2])
    expect(chooseAxes(cube, 'standard', 1).kept).toEqual([1])
    expect(chooseAxes(cube, 'standard', 2).kept).toHaveLength(2)
    const plate = inAir(blockBody({ width: 3, length: 3 }), 0.06)
    expect(chooseAxes(plate, 'standard').kept).toEqual([1])
    expect(chooseAxes(plate, 'standard', 3).kept).toEqual([0, 1, 2])
  })

  test('a probe near an end keeps its direction', () => {
    const plate = inAir(blockBody({ width: 3, length: 3 }), 0.06)
    const probed = { ...plate, probes: [{ name: 'end', place: { x: 0.5, y: 0.5, z: 0.02 } }] }
    expect(chooseAxes(probed, 'standard').kept).toEqual([1, 2])
  })
})

test('places of a mirrored half, of a dome and of a trough come back where they came from', () => {
  for (const body of [
    blockBody({ width: 0.2, length: 0.3 }),
    domeBody({ radius: 0.1 }),
    troughBody({ radius: 0.1, length: 1 }),
  ]) {
    const height = body.kind === 'block' ? 0.1 : null
    const course = runJourney(jobOf(body, cream, height, 20, [stage(body, air(10, 5), 0.1)]), { fidelity: 'quick' })
    for (const place of course.places().slice(0, 50)) {
      expect(place.where.x).toBeGreaterThanOrEqual(0)
      expect(place.where.y).toBeLessThanOrEqual(1)
      expect(Math.abs(course.follow(place.where).at(-1)! - place.T_C.at(-1)!)).toBeLessThan(0.2)
    }
  }
})
