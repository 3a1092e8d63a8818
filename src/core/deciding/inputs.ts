import { findSurroundings, surroundingsTitleOf } from '../boundary/surroundings.ts'
import type { FaceName } from '../geometry/body.ts'
import type { Layer } from '../geometry/layer.ts'
import { type Job, layersOfJob, type Stage } from '../journey/job.ts'
import { sameCondition } from '../journey/symmetry.ts'
import type { ResolvedPlan } from '../plan/resolve.ts'
import type { Plan, PlanStage } from '../plan/schema/plan.ts'
import { unrolled } from '../plan/unrolled.ts'
import { uncertainties } from './variation.ts'

/** What an uncertain input acts on. */
export type InputKind =
  | 'conductivity'
  | 'currents'
  | 'heat'
  | 'film'
  | 'face film'
  | 'power'
  | 'start temperature'
  | 'thickness'
  | 'air temperature'
  | 'setting laws'

/** One uncertain input of a plan: a normal number `z` of its own makes it `sigma × z` different. */
export interface Input {
  readonly kind: InputKind
  /** Material, layer, faces or surroundings that it acts on; empty where there is but one. */
  readonly of: string
  /** Title for people. */
  readonly title: string
  /** One standard deviation: of the logarithm for factors, K for temperatures. */
  readonly sigma: number
  readonly unit: 'factor' | 'K' | 'level'
  readonly source: string
}

/** 5 and 95 % of a normal distribution, in standard deviations. */
export const NINETY = 1.645

/*
 * A film coefficient is wrong by σ = 0.25 in all (see variation.ts). Most of it, the air's speed and the law itself, is
 * common to all faces; the split is an estimate, and joined as the root of squares it gives 0.25.
 */
const COMMON_FILM = 0.22
const FACE_FILM = 0.12

/** A layer is levelled to ±5 % (5 to 95 %): common practice, no source. */
const THICKNESS = 0.05 / NINETY
/**
 * Thermometer and unevenness of a stirred mass, ±2.5 K (5 to 95 %); of what comes out of a fridge or a freezing machine,
 * where a kelvin is worth far more, ±1 K: estimates.
 */
const START_K = 2.5 / NINETY
const COLD_START_K = 1 / NINETY
const COLD_C = 5

/** What an air told by the plan differs from the real one, K, 5 to 95 %: estimate, by what keeps it. */
function toldAir_K(air_C: number): number {
  if (air_C < 15) return 2
  return air_C <= 45 ? 2 : 8
}

const sigmaOf = (name: string): { sigma: number; source: string } => {
  const { factor, source } = uncertainties.find((one) => one.name === name)!
  return { sigma: Math.log(factor), source }
}

/** Stages in the same appliance or surroundings share their error: the key of each stage. Shape: job.stages */
export function airKeys(plan: Plan, { stages }: Job): string[] {
  return unrolled(plan.stages).map(
    ({ stage }, index) => stages[index]?.appliance?.appliance.name ?? JSON.stringify((stage as PlanStage).in),
  )
}

/** Faces that meet the same in every stage, joined by their names; halves alike stay alike. */
export function faceClasses(job: Job): ReadonlyMap<FaceName, string> {
  const names = [...new Set(job.stages.flatMap(({ faces }) => Object.keys(faces)))]
  const alike = (one: FaceName, other: FaceName): boolean =>
    job.stages.every(({ faces }) => {
      const [a, b] = [faces[one], faces[other]]
      return a === undefined || b === undefined ? a === b : sameCondition(a, b)
    })
  const groups: FaceName[][] = []
  for (const name of names) {
    const group = groups.find(([first]) => alike(first!, name))
    if (group === undefined) groups.push([name])
    else group.push(name)
  }
  return new Map(groups.flatMap((group) => group.map((name) => [name, group.join(', ')] as const)))
}

/** Whether any of some faces has a film at all in a stage. */
const filmsIn = ({ faces }: Stage, names: readonly FaceName[]): boolean =>
  names.some((face) => {
    const condition = faces[face]
    return condition?.kind === 'law' || (condition?.kind === 'convective' && condition.h > 0)
  })

const hasFilm = (job: Job, faces: readonly FaceName[]): boolean => job.stages.some((stage) => filmsIn(stage, faces))

/**
 * Layers whose thickness may be wrong. In a mould that gives the height, one layer takes what the others leave; where
 * they fill it to the rim, or leave next to nothing, the mould is taken at its word.
 */
export function unevenLayers(job: Job): Layer[] {
  const given = layersOfJob(job).filter(({ thickness }) => thickness !== null)
  if (job.body.fit === undefined) return given
  const lining = job.lining.reduce((sum, { thickness }) => sum + (thickness ?? 0), 0)
  const fill = job.fill.reduce((sum, { thickness }) => sum + (thickness ?? 0), 0)
  const room = (job.body.axes[0]?.length ?? 0) - lining
  const roomy = fill * (1 + 4 * THICKNESS) + 4 * THICKNESS * lining < room
  return roomy ? given : given.filter((layer) => !job.fill.includes(layer) && !job.lining.includes(layer))
}

/** Spread of the air that built-in surroundings have, K; undefined where the plan gives its own. */
function builtInAir_K(stage: PlanStage): { sigma: number; source: string } | undefined {
  const given = typeof stage.in === 'string' ? { like: stage.in } : stage.in
  const own =
    given.air_C ?? given.surface_C ?? (typeof given.appliance === 'object' ? given.appliance.set_C : undefined)
  const air = given.like === undefined || own !== undefined ? undefined : findSurroundings(given.like)?.air_C
  if (air === undefined || typeof air.low !== 'number' || typeof air.high !== 'number') return undefined
  return { sigma: (air.high - air.low) / 2 / NINETY, source: `low and high of the surroundings "${given.like}"` }
}

function airInputs(plan: Plan, job: Job): Input[] {
  const rounds = unrolled(plan.stages)
  const keys = airKeys(plan, job)
  return [...new Set(keys)].flatMap((key): Input[] => {
    const index = keys.indexOf(key)
    const stage = rounds[index]!.stage as PlanStage
    const [low, high] = job.stages[index]!.air_C.range
    const told = { sigma: toldAir_K((low + high) / 2) / NINETY, source: 'estimate' }
    const machine = job.stages[index]!.appliance?.appliance.machine
    const given_K = typeof stage.in === 'string' ? undefined : stage.in.measured?.air_within_K
    const { sigma, source } =
      given_K === undefined ? (builtInAir_K(stage) ?? told) : { sigma: given_K / NINETY, source: MEASURED }
    // Melting ice keeps its temperature, and what is switched off has none to keep.
    if (sigma === 0 || machine?.kind === 'ice' || machine?.kind === 'off') return []
    const title = `air of "${stage.name}" (${surroundingsTitleOf(stage.in).toLowerCase()})`
    return [{ kind: 'air temperature', of: key, title, sigma, unit: 'K', source }]
  })
}

/** Each surroundings of a plan once: its key, its stages, and what was measured of it. */
function airsOf(plan: Plan, job: Job) {
  const keys = airKeys(plan, job)
  const rounds = unrolled(plan.stages)
  return [...new Set(keys)].map((key) => {
    const given = (rounds[keys.indexOf(key)]!.stage as PlanStage).in
    return {
      key,
      stages: job.stages.filter((_, index) => keys[index] === key),
      measured: typeof given === 'string' ? undefined : given.measured,
    }
  })
}

const MEASURED = 'measured'

/** One standard deviation from what was measured, ± so many per cent of 5 to 95 %; from the usual where nothing was. */
const left = (within_pct: number | undefined, usual: { sigma: number; source: string }) =>
  within_pct === undefined ? usual : { sigma: Math.log1p(within_pct / 100) / NINETY, source: MEASURED }

/** What single faces may differ by beside their air: that of the air measured least. */
function faceFilm(airs: ReturnType<typeof airsOf>, faces: readonly FaceName[]): number {
  const known = airs.map(({ measured }) => {
    if (measured?.film_within_pct === undefined) return FACE_FILM
    const said = faces.map((face) => measured.faces?.[face]?.within_pct ?? 0)
    return Math.log1p(Math.max(...said) / 100) / NINETY
  })
  return Math.max(...known)
}

/** What the air of each surroundings passes, on all faces together. */
function filmInputs(plan: Plan, job: Job): Input[] {
  const airs = airsOf(plan, job).filter(({ stages }) =>
    stages.some((stage) => filmsIn(stage, Object.keys(stage.faces))),
  )
  const { source } = sigmaOf('film')
  return airs.map(({ key, stages }) => ({
    kind: 'film',
    of: key,
    title: airs.length === 1 ? 'heat passed by the air, all faces' : `heat passed by the air of "${stages[0]!.name}"`,
    sigma: COMMON_FILM,
    unit: 'factor',
    source,
  }))
}

/** Currents in each mass that pours: how thin it is within its class, or none at all. */
function currentInputs(job: Job): Input[] {
  const pouring = new Map(
    layersOfJob(job).flatMap(({ material }) => (material.pours === undefined ? [] : [[material.id, material]])),
  )
  const { source } = uncertainties.find(({ name }) => name === 'flow')!
  return [...pouring.values()].map(({ id, title }) => ({
    kind: 'currents',
    of: id,
    title: `how thin ${title} pours`,
    sigma: 1,
    unit: 'level',
    source,
  }))
}

function powerInputs(plan: Plan, job: Job): Input[] {
  const airs = airsOf(plan, job).filter(({ stages }) =>
    stages.some(({ appliance }) => appliance !== undefined && 'rated' in appliance.appliance.machine),
  )
  return airs.map(({ key, stages, measured }) => ({
    kind: 'power',
    of: key,
    title: airs.length === 1 ? 'power of the appliance' : `power of the appliance of "${stages[0]!.name}"`,
    unit: 'factor',
    ...left(measured?.power_within_pct, sigmaOf('power')),
  }))
}

/** Every uncertain input of a plan, in a fixed order. */
export function inputsOf(plan: Plan, { job, materials, targets }: ResolvedPlan): Input[] {
  const classes = [...new Set(faceClasses(job).values())].filter((faces) => hasFilm(job, faces.split(', ')))
  const film = { source: sigmaOf('film').source, unit: 'factor' as const }
  const airs = airsOf(plan, job)
  const laws = targets.some(({ kind }) => ['set', 'unmould', 'cut', 'stay', 'coat'].includes(kind))
  const heated = new Map(materials.map((material) => [material.id, material]))
  const inputs: Input[] = [
    ...[...heated.values()].flatMap(({ id, title }): Input[] => {
      const { k_within_pct, heat_within_pct } = plan.materials?.[id]?.measured ?? {}
      return [
        {
          kind: 'conductivity',
          of: id,
          title: `conductivity of ${title}`,
          unit: 'factor',
          ...left(k_within_pct, sigmaOf('k')),
        },
        {
          kind: 'heat',
          of: id,
          title: `stored heat of ${title}`,
          unit: 'factor',
          ...left(heat_within_pct, sigmaOf('heat')),
        },
      ]
    }),
    ...currentInputs(job),
    ...filmInputs(plan, job),
    ...classes.map(
      (faces): Input => ({
        kind: 'face film',
        of: faces,
        title: `heat passed by the air, ${faces} alone`,
        sigma: faceFilm(airs, faces.split(', ')),
        ...film,
      }),
    ),
    ...powerInputs(plan, job),
    ...layersOfJob(job)
      .filter(({ material }) => material.empty !== true)
      .map(
        ({ name, material, start_C }): Input => ({
          kind: 'start temperature',
          of: name,
          title: `start temperature of ${material.title} (${name})`,
          sigma: start_C < COLD_C ? COLD_START_K : START_K,
          unit: 'K',
          source: 'estimate',
        }),
      ),
    ...unevenLayers(job).map(
      ({ name, material }): Input => ({
        kind: 'thickness',
        of: name,
        title: `thickness of ${material.title} (${name})`,
        sigma: THICKNESS,
        unit: 'factor',
        source: 'common practice, no source',
      }),
    ),
    ...airInputs(plan, job),
    ...(laws
      ? [
          {
            kind: 'setting laws' as const,
            of: '',
            title: 'setting laws',
            sigma: 1,
            unit: 'level' as const,
            source: 'low and high of each law',
          },
        ]
      : []),
  ]
  return inputs.filter(({ sigma }) => sigma > 0)
}
