import bench from '../../../shared/surroundings/bench.json'
import blastChiller from '../../../shared/surroundings/blast-chiller.json'
import blastFreezer from '../../../shared/surroundings/blast-freezer.json'
import cabinetFreezer from '../../../shared/surroundings/cabinet-freezer.json'
import cabinetFridge from '../../../shared/surroundings/cabinet-fridge.json'
import chestFreezer from '../../../shared/surroundings/chest-freezer.json'
import coldRoom from '../../../shared/surroundings/cold-room.json'
import fridgeFan from '../../../shared/surroundings/fridge-fan.json'
import fridgeStatic from '../../../shared/surroundings/fridge-static.json'
import hotPlate from '../../../shared/surroundings/hot-plate.json'
import iceBathStill from '../../../shared/surroundings/ice-bath-still.json'
import iceBathStirred from '../../../shared/surroundings/ice-bath-stirred.json'
import ovenConvection from '../../../shared/surroundings/oven-convection.json'
import ovenDeck from '../../../shared/surroundings/oven-deck.json'
import ovenFan from '../../../shared/surroundings/oven-fan.json'
import ovenOffAjar from '../../../shared/surroundings/oven-off-ajar.json'
import ovenOffShut from '../../../shared/surroundings/oven-off-shut.json'
import ovenStatic from '../../../shared/surroundings/oven-static.json'
import roomFan from '../../../shared/surroundings/room-fan.json'
import roomStill from '../../../shared/surroundings/room-still.json'
import uprightFreezer from '../../../shared/surroundings/upright-freezer.json'
import walkInFreezer from '../../../shared/surroundings/walk-in-freezer.json'
import waterBath from '../../../shared/surroundings/water-bath.json'
import { z } from '../zod.ts'
import { applianceFileSchema } from './appliance-figures.ts'

const finite = z.number()
/** °C, or points [hours of the stage, °C]. */
const course = z.union([finite, z.array(z.tuple([finite.min(0), finite])).min(2)])
const estimate = z.strictObject({ low: finite, typical: finite, high: finite })
const air = z.strictObject({ low: course, typical: course, high: course })
const emissivity = finite.min(0).max(1)

const face = z.strictObject({
  /** W/(m² K), convective part alone. */
  h_W_m2K: estimate,
  /** Where this face meets another air than the piece as a whole. */
  air_C: air.exactOptional(),
  emissivity: emissivity.exactOptional(),
  /** Lies on something solid: `h_W_m2K` is that of the contact, `air_C` what it touches, and nothing else passes. */
  contact: z.literal(true).exactOptional(),
})

/** One built-in surroundings: a file of shared/surroundings. */
export const surroundingsSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9-]+$/),
  title: z.string().min(1),
  air_C: air,
  /** How much warmer the walls are than the air. */
  walls_minus_air_K: finite,
  /** Of the piece's own surface, as far as these surroundings see it by radiation; 0 under water. */
  emissivity,
  /** Temperature of the piece's surface for which the film coefficients were computed. */
  surface_C: finite,
  humidity: z
    .union([z.strictObject({ relative: finite.gt(0).max(1) }), z.strictObject({ kg_kg: finite.gt(0) })])
    .exactOptional(),
  speed_m_s: estimate.exactOptional(),
  faces: z.strictObject({ top: face, sides: face, bottom: face }),
  /** What faces without an air of their own lie in; air where left out. */
  fluid: z.literal('water').exactOptional(),
  appliance: applianceFileSchema.exactOptional(),
  /** What is assumed and what is weak, in words. */
  note: z.string().min(1),
  sources: z
    .array(
      z.strictObject({
        of: z.enum(['air_C', 'faces', 'emissivity', 'humidity', 'speed_m_s', 'appliance']),
        text: z.string().min(1),
        certainty: z.enum(['seen in the source', 'computed', 'from memory', 'estimate']),
      }),
    )
    .min(1),
})

/** Built-in surroundings as their file gives them. */
export type Surroundings = z.infer<typeof surroundingsSchema>
/** Part of the piece's outside that a film coefficient is given for. */
export type Side = keyof Surroundings['faces']

/** Files of shared/surroundings by id; a test compares this list with the folder. */
const files: Readonly<Record<string, unknown>> = {
  bench,
  'blast-chiller': blastChiller,
  'blast-freezer': blastFreezer,
  'cabinet-freezer': cabinetFreezer,
  'cabinet-fridge': cabinetFridge,
  'chest-freezer': chestFreezer,
  'cold-room': coldRoom,
  'fridge-fan': fridgeFan,
  'fridge-static': fridgeStatic,
  'hot-plate': hotPlate,
  'ice-bath-still': iceBathStill,
  'ice-bath-stirred': iceBathStirred,
  'oven-convection': ovenConvection,
  'oven-deck': ovenDeck,
  'oven-fan': ovenFan,
  'oven-off-ajar': ovenOffAjar,
  'oven-off-shut': ovenOffShut,
  'oven-static': ovenStatic,
  'room-fan': roomFan,
  'room-still': roomStill,
  'upright-freezer': uprightFreezer,
  'walk-in-freezer': walkInFreezer,
  'water-bath': waterBath,
}

/** Ids of all built-in surroundings, in the order of the alphabet. */
export const surroundingsIds: readonly string[] = Object.keys(files)

const parsed = new Map<string, Surroundings>()

/** Built-in surroundings; nothing when there is none of this id. */
export function findSurroundings(id: string): Surroundings | undefined {
  const known = parsed.get(id)
  if (known !== undefined || !Object.hasOwn(files, id)) return known
  const data = surroundingsSchema.parse(files[id])
  parsed.set(id, data)
  return data
}

/** Which film coefficient an elementary face takes: upright and round faces count as sides. */
export function sideOf(face: string): Side {
  return face === 'top' || face === 'bottom' ? face : 'sides'
}

/** What a plan's surroundings are called, in few words. */
export function surroundingsTitleOf(surroundings: string | { readonly like?: string }): string {
  const id = typeof surroundings === 'string' ? surroundings : surroundings.like
  return id === undefined ? 'Own surroundings' : (findSurroundings(id)?.title ?? id)
}
