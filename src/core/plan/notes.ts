import { findSurroundings } from '../boundary/surroundings.ts'
import type { Body } from '../geometry/body.ts'
import type { Layer } from '../geometry/layer.ts'
import { type Message, message } from '../messages.ts'
import { ROOM_EMISSIVITY } from '../solver/air-rooms.ts'
import { type Exchange, FOOD_EMISSIVITY, surroundingsOf } from './exchange.ts'
import { facesNamed } from './face-names.ts'
import type { PlanStage } from './schema/plan.ts'
import type { InAppliance } from './stage-appliance.ts'

/** Notes in the order in which they came up, each once. */
export interface Notes {
  add(note: Message): void
  readonly all: readonly Message[]
}

export function startNotes(): Notes {
  const kept = new Map<string, Message>()
  return {
    add: (note) => {
      const key = JSON.stringify(note)
      if (!kept.has(key)) kept.set(key, note)
    },
    get all() {
      return [...kept.values()]
    },
  }
}

/** What a stage leaves unsaid about its surroundings, and what was taken instead. */
export function noteExchanges(stage: PlanStage, body: Body, exchanges: readonly Exchange[], notes: Notes): void {
  const given = surroundingsOf(stage)
  const airs = exchanges.filter((exchange) => exchange.kind === 'air')
  const laws = exchanges.filter((exchange) => exchange.kind === 'law')
  const base = given.like === undefined ? undefined : findSurroundings(given.like)
  const speeds = laws.filter((law) => law.h_W_m2K === undefined && law.fluid === 'air').map((law) => law.speed_m_s)
  if (speeds[0] !== undefined) notes.add(message('film-by-laws', { stage: stage.name, speed_m_s: Math.max(...speeds) }))
  if (laws.some((law) => law.humidity !== undefined)) notes.add(message('evaporation-by-laws', {}))
  if (base !== undefined && [...airs, ...laws].some((exchange) => exchange.builtIn)) {
    const { title, note, surface_C } = base
    if (airs.some((exchange) => exchange.builtIn)) notes.add(message('surroundings-typical', { title, surface_C }))
    notes.add(message('surroundings-note', { title, note }))
    const { typical } = base.air_C
    if (given.air_C === undefined && typeof typical === 'number')
      notes.add(message('air-default', { title, air_C: typical }))
  }
  const both = [...airs, ...laws]
  if (both.some((exchange) => exchange.assumed.includes('emissivity')))
    notes.add(message('emissivity-default', { stage: stage.name, emissivity: FOOD_EMISSIVITY }))
  if (both.some((exchange) => exchange.assumed.includes('walls_C')))
    notes.add(message('walls-as-air', { stage: stage.name }))
  if (airs.some((exchange) => !exchange.builtIn && exchange.h_W_m2K > 0 && exchange.radiation === undefined))
    notes.add(message('radiation-within-film', { stage: stage.name }))
  for (const name of Object.keys(given.faces ?? {}))
    if (facesNamed(body, [name]).length === 0) notes.add(message('face-left-out', { face: name }))
}

/** What power a stage's appliance was taken to have. */
export function noteAppliance(stage: PlanStage, { figures }: InAppliance, notes: Notes): void {
  const { title, kind, set_C, capacity, rated_C = set_C, heater, ice, water = 0, off } = figures
  const said = surroundingsOf(stage).appliance
  if (off === true) notes.add(message('appliance-off', { title }))
  else if (
    kind === 'cold' &&
    capacity !== undefined &&
    (said === undefined || said === false || said.capacity_W === undefined)
  )
    notes.add(message('appliance-typical-cold', { title, capacity_W: capacity, rated_C }))
  else if (ice !== undefined) {
    if (said === undefined || said === false || said.ice_kg === undefined)
      notes.add(message('appliance-typical-ice', { title, ice_kg: ice, water_kg: water }))
  } else if (heater !== undefined && (said === undefined || said === false || said.heater_W === undefined))
    notes.add(message('appliance-typical-heater', { title, heater_W: heater }))
}

/** Whether a layer holds heat. */
const isMass = ({ material }: Layer): boolean => material.empty !== true

/** How air within the piece is told, and where its side stays open. */
export function noteAir(
  layers: readonly Layer[],
  { body, fill }: { readonly body: Body; readonly fill: readonly Layer[] },
  notes: Notes,
): void {
  for (const layer of layers) {
    if (isMass(layer)) continue
    const { name } = layer
    notes.add(message('air-within', { name, emissivity: ROOM_EMISSIVITY }))
    const last = body.invertedAtStart === true ? fill[0] : fill[fill.length - 1]
    if (layer === last && body.stackAxis !== null) notes.add(message('air-open', { name }))
  }
}
