import { message } from '../messages.ts'
import { z } from '../zod.ts'
import type { BakingInput } from './baking.ts'
import { type Composition, condensedDensity, type Mass } from './composition.ts'
import { fatKinds } from './fats.ts'
import { keepingOf, keepingSchema } from './keeping.ts'
import { massMaterial } from './mass-material.ts'
import type { Material } from './material.ts'
import { pourClass, pouringOf } from './pouring.ts'
import { setsByFile } from './sets-by.ts'

const percent = z.number().min(0).max(100)

/** How far a figure can be trusted. */
const certainty = z.enum(['seen in the source', 'from memory', 'estimate', 'common practice, no source'])

const measured = z.strictObject({
  property: z.enum(['k', 'rho', 'c', 'freezing point']),
  /** Temperature of the measurement, °C; absent where the source gives none. */
  at_C: z.number().exactOptional(),
  value: z.number(),
  unit: z.enum(['W/(m K)', 'kg/m3', 'J/(kg K)', 'degC']),
  source: z.string(),
  certainty,
  note: z.string(),
  /** For a miss of more than 15 %: why. */
  miss: z.string().exactOptional(),
})

/** One built-in mass: a file of shared/materials. */
export const builtInSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9-]+$/),
  title: z.string().min(1),
  look: z.enum(['cream', 'custard', 'sponge', 'batter', 'biscuit', 'chocolate', 'fruit', 'gel', 'plain']),
  composition_pct: z.strictObject({
    water: percent,
    protein: percent,
    fat: percent,
    sugars: percent,
    starch: percent,
    fibre: percent,
    ash: percent,
    alcohol: percent.exactOptional(),
    other: percent.exactOptional(),
  }),
  /** Kinds of sugar, adding up to `sugars`. */
  sugars_pct: z.strictObject({
    sucrose: percent.exactOptional(),
    glucose: percent.exactOptional(),
    fructose: percent.exactOptional(),
    lactose: percent.exactOptional(),
    maltose: percent.exactOptional(),
    syrup_solids: percent.exactOptional(),
  }),
  /** Sucrose that lies as crystals, part of `sugars_pct.sucrose`. */
  crystals_pct: percent.exactOptional(),
  /** Shares of the fat by kind, adding up to 1. */
  fat_kinds: z.partialRecord(z.enum(fatKinds), z.number().min(0).max(1)),
  ash_kg_mol: z.number().gt(0),
  salt_pct: percent.exactOptional(),
  structure: z.enum(['OW', 'WO']),
  /** Measured freezing point that overrides the one from composition; its source is among `measured`. */
  freezes_C: z.number().lt(0).exactOptional(),
  /** Weighed density where there is air in the mass. */
  density_kg_m3: z.number().gt(0).exactOptional(),
  pore_aw: z.number().gt(0).max(1).exactOptional(),
  /** For a batter or a crumb: how it does in the oven. */
  baking: z
    .discriminatedUnion('state', [
      z.strictObject({
        state: z.literal('batter'),
        /** Volume at most over volume as poured, water lost left out of account. */
        rises_to: z.number().min(1),
        /** CO2 that the leavening gives off, litres at 20 °C per kg of mass. */
        leavening_L_kg: z.number().min(0),
        source: z.string(),
        certainty,
        note: z.string(),
      }),
      z.strictObject({ state: z.literal('crumb') }),
    ])
    .exactOptional(),
  /** Water activity and pH, with where they come from. */
  keeping: keepingSchema.extend({ source: z.string(), certainty, note: z.string() }).exactOptional(),
  /** How thin it is while it pours, where it does; see materials/pouring.ts. */
  pours: z.strictObject({ class: pourClass, source: z.string(), certainty }).exactOptional(),
  /** How it sets: laws of outcomes/kinetics with their inputs. */
  sets: z.array(setsByFile).exactOptional(),
  composition_source: z.strictObject({ source: z.string(), certainty, note: z.string() }),
  measured: z.array(measured),
  /** What is weak about this mass, in words. */
  weak: z.array(z.string()),
})

export type BuiltIn = z.infer<typeof builtInSchema>
export type Measured = z.infer<typeof measured>

/** The composition of a built-in mass, scaled to add up to 1. */
export function builtInComposition(given: BuiltIn): Composition {
  const parts = { alcohol: 0, other: 0, ...given.composition_pct }
  const total = Object.values(parts).reduce((sum, share) => sum + share, 0)
  const named = Object.values(given.sugars_pct).reduce((sum, share) => sum + share, 0)
  const scale = named > 0 ? parts.sugars / named / total : 0
  const sugars = Object.fromEntries(Object.entries(given.sugars_pct).map(([kind, share]) => [kind, share * scale]))
  return {
    water: parts.water / total,
    protein: parts.protein / total,
    fat: parts.fat / total,
    sugars,
    starch: parts.starch / total,
    fibre: parts.fibre / total,
    ash: parts.ash / total,
    alcohol: parts.alcohol / total,
    polyols: {},
    other: parts.other / total,
    salt: (given.salt_pct ?? 0) / total,
    crystals: (given.crystals_pct ?? 0) / total,
  }
}

/** The mass behind a file of shared/materials. */
export function builtInMass(given: BuiltIn): Mass {
  const solid: Mass = {
    composition: builtInComposition(given),
    structure: given.structure,
    ash_kg_mol: given.ash_kg_mol,
    syrup_DE: 42,
    fat_kinds: given.fat_kinds,
    ...(given.freezes_C === undefined ? {} : { measured_freezing_C: given.freezes_C }),
    porosity: 0,
    pore_aw: given.pore_aw ?? 0.95,
  }
  if (given.density_kg_m3 === undefined) return solid
  return { ...solid, porosity: 1 - given.density_kg_m3 / condensedDensity(solid, 20, 0) }
}

const BAKED: BakingInput = { baked: true, mostGrowth: 1, leavening: 0 }

function bakingInput({ baking }: BuiltIn): { readonly baking?: BakingInput } {
  if (baking === undefined) return {}
  if (baking.state === 'crumb') return { baking: BAKED }
  return { baking: { baked: false, mostGrowth: baking.rises_to, leavening: baking.leavening_L_kg / 1000 } }
}

/** A material out of a file of shared/materials. */
export function builtInMaterial(given: BuiltIn): Material {
  const { keeping, pours, sets } = given
  return {
    ...massOf(given),
    ...(pours === undefined ? {} : { pours: pouringOf(pours.class) }),
    ...(keeping === undefined ? {} : { keeping: keepingOf(keeping) }),
    ...(sets === undefined ? {} : { sets: sets.map(({ source: _, ...inputs }) => inputs) }),
  }
}

function massOf(given: BuiltIn): Material {
  return massMaterial({
    id: given.id,
    title: given.title,
    look: given.look,
    mass: builtInMass(given),
    ...bakingInput(given),
    notes: given.weak.map((words) => message('weak-point', { words })),
    sources: [
      given.composition_source.source,
      ...given.measured.map((one) => one.source),
      ...(given.baking?.state === 'batter' ? [given.baking.source] : []),
      ...(given.keeping === undefined ? [] : [given.keeping.source]),
    ],
  })
}
