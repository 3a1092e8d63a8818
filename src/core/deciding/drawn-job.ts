import { filmTimes, warmerBy } from '../boundary/corrected.ts'
import type { Layer } from '../geometry/layer.ts'
import { tableRange } from '../journey/causes.ts'
import type { Job, Stage } from '../journey/job.ts'
import type { Material } from '../materials/material.ts'
import { THINNEST } from '../materials/pouring.ts'
import { scaled } from '../materials/scaled.ts'
import { faceClasses, type Input, type InputKind, NINETY } from './inputs.ts'
import { varyAppliance } from './variation.ts'

/** What is the same for all draws of one job. */
export interface Drawing {
  readonly job: Job
  readonly inputs: readonly Input[]
  /** Shape: job.stages */
  readonly airs: readonly string[]
  readonly classes: ReadonlyMap<string, string>
  /** Wide enough for every draw, so that tables are drawn once. */
  readonly tables_C: readonly [number, number]
}

/** Draws beyond this many standard deviations would leave the tables; they are taken as this. */
const FURTHEST = 4

/** Makes ready to draw jobs. */
export function startDrawing(job: Job, inputs: readonly Input[], airs: readonly string[]): Drawing {
  const shift = Math.max(0, ...inputs.filter(({ unit }) => unit === 'K').map(({ sigma }) => FURTHEST * sigma))
  const [low, high] = tableRange(job)
  return { job, inputs, airs, classes: faceClasses(job), tables_C: [low - shift, high + shift] }
}

/** What a draw makes of an input: a factor, or a shift in K. */
type Look = (kind: InputKind, of?: string) => number

/** Kinds of which nothing drawn is 0; the others are factors. */
const isShift = (kind: InputKind): boolean => kind.endsWith('temperature') || kind === 'currents'

function lookInto({ inputs }: Drawing, draw: Float64Array): Look {
  const values = new Map(
    inputs.map(({ kind, of, unit, sigma }, index) => {
      const moved = sigma * Math.max(-FURTHEST, Math.min(FURTHEST, draw[index]!))
      return [`${kind} ${of}`, unit === 'factor' ? Math.exp(moved) : moved]
    }),
  )
  return (kind, of = '') => values.get(`${kind} ${of}`) ?? (isShift(kind) ? 0 : 1)
}

/**
 * How much thinner than the middle of its class a mass pours, by a draw: from the thick end at 5 % to the thin one at
 * 95 %; one in twenty has no currents at all, as bounds of the quick estimate have it.
 */
const flowOf = (draw: number): number => (draw <= -NINETY ? 0 : THINNEST ** Math.min(1, draw / NINETY))

function drawLayers(look: Look): (layer: Layer) => Layer {
  const made = new Map<Material, Material>()
  return (layer) => {
    const { material, name, thickness, start_C } = layer
    const [k, heat] = [look('conductivity', material.id), look('heat', material.id)]
    const flow = flowOf(look('currents', material.id))
    // The same material keeps what has been worked out for it.
    const drawn =
      k === 1 && heat === 1 && flow === 1 ? material : (made.get(material) ?? scaled(material, { k, heat, flow }))
    made.set(material, drawn)
    return {
      ...layer,
      material: drawn,
      thickness: thickness === null ? null : thickness * look('thickness', name),
      start_C: start_C + look('start temperature', name),
    }
  }
}

function drawStage(drawing: Drawing, look: Look, stage: Stage, index: number, vary: (layer: Layer) => Layer): Stage {
  const air_K = look('air temperature', drawing.airs[index])
  const drawn = varyAppliance(stage, look('power', drawing.airs[index])).appliance
  const common = look('film', drawing.airs[index])
  const warmer = warmerBy(air_K)
  const faces = Object.entries(stage.faces).map(([face, condition]) => {
    const film = common * look('face film', drawing.classes.get(face))
    return [face, warmer.face(filmTimes(condition, film))] as const
  })
  return {
    ...stage,
    start: stage.start.map((action) =>
      action.do === 'pour' || action.do === 'coat' ? { ...action, layer: vary(action.layer) } : action,
    ),
    faces: Object.fromEntries(faces),
    air_C: warmer.profile(stage.air_C),
    ...(drawn === undefined ? {} : { appliance: warmer.appliance(drawn) }),
  }
}

/**
 * The job as a draw of its inputs would have it.
 * @param draw  standard normal numbers. Shape: inputs
 */
export function drawnJob(drawing: Drawing, draw: Float64Array): Job {
  const { job, tables_C, inputs } = drawing
  const look = lookInto(drawing, draw)
  const vary = drawLayers(look)
  const sized = inputs.some(({ kind }) => kind === 'thickness')
  return {
    ...job,
    tables_C,
    ...(sized ? {} : { shapedLike: job.shapedLike ?? job }),
    lining: job.lining.map(vary),
    fill: job.fill.map(vary),
    ...(job.inserts === undefined
      ? {}
      : { inserts: job.inserts.map((insert) => ({ ...insert, layer: vary(insert.layer) })) }),
    stages: job.stages.map((stage, index) => drawStage(drawing, look, stage, index, vary)),
  }
}

/** Shares of the draws at which setting laws go by their low and high figures: three points like a normal number. */
const OUTER = 0.9674

/** The level of the setting laws that a draw means; low and high stand for √3 standard deviations. */
export function levelOf({ inputs }: Drawing, draw: Float64Array): 'low' | 'typical' | 'high' {
  const index = inputs.findIndex(({ kind }) => kind === 'setting laws')
  const z = index < 0 ? 0 : draw[index]!
  if (Math.abs(z) <= OUTER) return 'typical'
  return z < 0 ? 'low' : 'high'
}
