import { keepingSchema } from '../../materials/keeping.ts'
import { pourClass } from '../../materials/pouring.ts'
import { setsBySchema } from '../../outcomes/kinetics/index.ts'
import { z } from '../../zod.ts'
import { measuredMaterial } from './measured.ts'
import { finite, id, name, percent } from './values.ts'

/* A plan's own materials. */

/** What a material says beside its thermal law. */
const beside = {
  measured: measuredMaterial
    .meta({ title: 'Measured', description: 'What readings made of its properties.' })
    .exactOptional(),
  keeping: keepingSchema.meta({ title: 'Keeping', description: 'What decides what can grow in it.' }).exactOptional(),
  pours: pourClass
    .meta({
      title: 'Pours',
      description: 'How thin it is as poured: watery, thin as hot cream, or syrupy; currents then help it to cool.',
    })
    .exactOptional(),
  sets: z
    .array(setsBySchema)
    .min(1)
    .max(4)
    .meta({ description: 'How it sets: one law, or several that must all have done their part.' })
    .exactOptional(),
}

const fixedMaterial = z
  .strictObject({
    fixed: z.strictObject({
      k_W_mK: finite.gt(0).max(500).meta({ description: 'Thermal conductivity, W/(m K).' }),
      rho_kg_m3: finite.gt(0).max(20_000).meta({ description: 'Density, kg/m³.' }),
      c_J_kgK: finite.gt(0).max(20_000).meta({ description: 'Heat capacity, J/(kg K).' }),
    }),
    ...beside,
  })
  .meta({ title: 'Fixed properties' })
const column = (value: z.ZodNumber) => z.array(value).min(2).max(10_000)
const tableMaterial = z
  .strictObject({
    table: z.strictObject({
      rho_kg_m3: finite.gt(0).max(20_000).meta({ description: 'Density, kg/m³.' }),
      T_C: column(finite.min(-273.15).max(2_000)).meta({ description: 'Temperatures, never falling, °C.' }),
      enthalpy_J_kg: column(finite).meta({ description: 'Enthalpy at each temperature, rising, J/kg.' }),
      k_W_mK: column(finite.gt(0)).meta({ description: 'Conductivity at each temperature, W/(m K).' }),
    }),
    ...beside,
  })
  .meta({ title: 'Measured table', description: 'Straight lines between the points.' })
const risesTo = finite.min(1).max(5).meta({
  description: 'Of a batter: volume when set over volume as poured, at most; measure a trial bake.',
})
const compositionMaterial = z
  .strictObject({
    composition_pct: z
      .strictObject({
        water: percent,
        protein: percent.exactOptional(),
        fat: percent.exactOptional(),
        sugars: percent.exactOptional(),
        starch: percent.exactOptional(),
        fibre: percent.exactOptional(),
        ash: percent.exactOptional(),
      })
      .meta({ description: 'Share of the mass, %; the shares add up to 100.' }),
    air_pct: finite.min(0).max(95).meta({ description: 'Share of the volume that is air, %.' }).exactOptional(),
    rises_to: risesTo.exactOptional(),
    ...beside,
  })
  .meta({ title: 'Composition' })
const recipeLine = z.strictObject({
  ingredient: id.meta({ description: 'Name of an ingredient of the table.' }),
  mass_kg: finite.gt(0).max(10_000).meta({ description: 'Weight, kg.' }).exactOptional(),
  volume_L: finite.gt(0).max(10_000).meta({ description: 'Volume, L.' }).exactOptional(),
  count: finite.gt(0).max(100_000).meta({ description: 'How many of a unit.' }).exactOptional(),
  unit: name.meta({ description: 'Unit that is counted, such as "piece-L" for eggs.' }).exactOptional(),
  unit_g: finite.gt(0).max(100_000).meta({ description: 'Weight of one unit, g.' }).exactOptional(),
})
export const recipeMaterial = z
  .strictObject({
    recipe: z.array(recipeLine).min(1).max(200),
    water_loss_pct: finite
      .min(0)
      .max(95)
      .meta({ description: 'Water lost in baking or boiling, % of all that was put together.' })
      .exactOptional(),
    overrun_pct: finite
      .min(0)
      .max(1_000)
      .meta({ description: 'Air beaten in, % of the volume without.' })
      .exactOptional(),
    air_pct: finite.min(0).max(95).meta({ description: 'Share of the volume that is air, %.' }).exactOptional(),
    density_kg_m3: finite
      .gt(0)
      .max(3_000)
      .meta({ description: 'Density of the finished mass, weighed, kg/m³; best where there is air.' })
      .exactOptional(),
    structure: z
      .enum(['OW', 'WO'])
      .meta({ description: 'What is continuous: the watery part (OW) or the fat (WO).' })
      .exactOptional(),
    pore_aw: finite.gt(0).max(1).meta({ description: 'Water activity in the pores.' }).exactOptional(),
    rises_to: risesTo.exactOptional(),
    ...beside,
  })
  .meta({ title: 'Recipe' })
const likeMaterial = z
  .strictObject({ like: id.meta({ description: 'Built-in material that it is otherwise like.' }), ...beside })
  .meta({ title: 'As a built-in one' })
export const material = z.union([fixedMaterial, tableMaterial, compositionMaterial, recipeMaterial, likeMaterial])
