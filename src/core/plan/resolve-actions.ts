import type { Body, FaceName } from '../geometry/body.ts'
import type { Layer } from '../geometry/layer.ts'
import type { Action } from '../journey/job.ts'
import { getWall } from '../materials/wall.ts'
import { message } from '../messages.ts'
import { keepsOf } from './cutting.ts'
import { surroundingsOf } from './exchange.ts'
import type { Notes } from './notes.ts'
import type { PlanAction, PlanLayer, PlanStage } from './schema/plan.ts'
import { applianceFigures } from './stage-appliance.ts'
import { bodyAs, facesOf, type StandOn, upperEnd, type Wrapping } from './wrapping.ts'

/** Standard acceleration of free fall, m/s². Source: CGPM 1901. */
const GRAVITY = 9.80665

/**
 * Thickness of the film that a melt with a yield stress leaves on an upright face, m: what is thinner no longer runs,
 * since its weight per area, ρ g h, is below the stress.
 */
export const drainedThickness = (yield_Pa: number, density: number): number => yield_Pa / (density * GRAVITY)

interface Around {
  readonly body: Body
  readonly stage: PlanStage
  /** Name of the action, unlike that of any other. */
  readonly name: string
  readonly wrapping: Wrapping
  readonly layerOf: (name: string, layer: PlanLayer) => Layer
  readonly notes: Notes
}

/** An action of the plan in SI, and what is to be said of it. */
export function resolveAction(action: PlanAction, around: Around): Action {
  const { body, stage, name, wrapping, layerOf, notes } = around
  const lying = bodyAs(body, wrapping)
  const faces = facesOf(action, wrapping, lying)
  switch (action.do) {
    case 'pour':
    case 'place': {
      notes.add(message('layer-laid', { stage: stage.name, title: layerOf(name, action).material.title }))
      const end = upperEnd(body, wrapping) ?? 'high'
      return { do: 'pour', layer: layerOf(name, action), end }
    }
    case 'coat': {
      const { material, start_C, thickness_mm, yield_Pa } = action
      const layer = layerOf(name, { material, start_C, ...(thickness_mm === undefined ? {} : { thickness_mm }) })
      if (layer.thickness !== null) return { do: 'coat', layer, faces }
      const thickness = drainedThickness(yield_Pa ?? 0, layer.material.density)
      notes.add(message('coat-drained', { title: layer.material.title, thickness_m: thickness }))
      return { do: 'coat', layer: { ...layer, thickness }, faces }
    }
    case 'turn':
      notes.add(message('turned-over', { stage: stage.name }))
      return { do: 'turn' }
    case 'cut': {
      const { keeps, pieces } = keepsOf(body, action)
      notes.add(message('cut-followed', { stage: stage.name, pieces: Math.round(pieces) }))
      notes.add(message('faces-cut', { stage: stage.name }))
      return { do: 'cut', keep: keeps, pieces }
    }
    case 'open-door':
      if (applianceFigures(surroundingsOf(stage)) === undefined)
        notes.add(message('door-without-appliance', { stage: stage.name, within_h: action.minutes / 60 }))
      return { do: 'move', title: `open the door for ${action.minutes} min` }
    case 'wrap':
      return { do: 'cover', title: `wrap in ${getWall(action.with ?? 'film').title.toLowerCase()}` }
    case 'stand':
      return { do: 'move', title: action.on === 'shelf' ? 'straight on the shelf' : `on ${withArticle(action.on)}` }
    case 'cover':
    case 'uncover':
    case 'unmould':
      if (action.do !== 'cover') notes.add(message('faces-bared', { stage: stage.name }))
      return { do: action.do, title: titleOf(action, facesAsNamed(lying, faces)) }
  }
}

const withArticle = (on: Exclude<StandOn, 'shelf'>): string => (on === 'spacers' ? on : `a ${on}`)

/** Faces by the names that they have as the piece lies. */
function facesAsNamed(lying: Body, faces: readonly FaceName[]): FaceName[] {
  return faces.map((face) => {
    const own = Object.entries(lying.faces).find(([, holds]) => holds.length === 1 && holds[0] === face)
    return own?.[0] ?? face
  })
}

function titleOf(action: PlanAction, faces: readonly FaceName[]): string {
  const where = faces.join(', ')
  if (action.do === 'cover') return `cover ${where} with ${getWall(action.with).title.toLowerCase()}`
  return action.do === 'uncover' ? `uncover ${where}` : 'take out of the mould'
}
