import { type Composition, condensedDensity, type Mass, solutionOf } from '../materials/composition.ts'
import { freezingPoint } from '../materials/freezing.ts'
import { enthalpyChen, freezingPointLinear, freezingPointRaoult, iceMiles, iceTchigeov } from '../materials/handbook.ts'
import { findIngredient } from '../materials/ingredients.ts'
import { type MassLaw, massLaw } from '../materials/mass-law.ts'
import { makeRecipe } from '../materials/recipe.ts'
import { z } from '../zod.ts'
import { freezingCheckRows } from './freezing-checks.ts'
import type { Row } from './report.ts'
import { compared, leftOut } from './vector-row.ts'

/* Whole masses: conductivity, heat, freezing. */

const percent = z.looseObject({
  W: z.number(),
  P: z.number(),
  F: z.number(),
  S: z.number(),
  St: z.number(),
  Fi: z.number(),
  A: z.number(),
})
const numberOrNull = z.number().nullable()
const source = z.string().exactOptional()

export const massSections = {
  freezingChecks: z.array(
    z.looseObject({ case: z.string(), model_degC: z.number(), measured_degC: z.number(), source: source }),
  ),
  worked_cream: z.looseObject({
    composition: z.record(z.string(), z.number()),
    M_ash_kg_mol: z.number(),
    boundWater: z.number(),
    tf_linear: z.number(),
    tf_raoult: z.number(),
    tf_norrish: z.number(),
    rows: z.array(
      z.looseObject({
        t: z.number(),
        iceMassFrac: z.number(),
        iceMiles: z.number(),
        iceTchigeov: z.number(),
        H_kJ_kg: z.number(),
        c_app_kJ_kgK: numberOrNull,
        k: z.number(),
        rho: z.number(),
      }),
    ),
  }),
  ashraeBeefExample: z.looseObject({
    input: z.looseObject({
      x_wo: z.number(),
      x_p: z.number(),
      t_f: z.number(),
      t: z.number(),
      mass_kg: z.number(),
      L0: z.number(),
      t_r: z.number(),
    }),
    iceTchigeov: z.number(),
    iceMiles: z.number(),
    massIce_kg: z.number(),
    H_f: z.number(),
    H_10: z.number(),
    'H_-20': z.number(),
  }),
  yellowCakeCheck: z.looseObject({
    rows: z.array(
      z.looseObject({
        state: z.string(),
        rho: z.number(),
        porosity: z.number(),
        k_model: z.number(),
        k_measured: z.number(),
        k_dryPores: z.number(),
        pct: percent,
        a_w: z.number(),
        t: z.number(),
      }),
    ),
  }),
  chocolate: z.array(
    z.looseObject({
      prop: z.string(),
      T: z.union([z.number(), z.string()]),
      measured: z.union([z.number(), z.tuple([z.number(), z.number()])]),
      source: source,
    }),
  ),
  masses: z.array(
    z.looseObject({
      id: z.string(),
      pct: percent,
      sugarCrystalFrac: z.number(),
      structure: z.enum(['OW', 'WO']),
      rho_app: numberOrNull,
      rho: z.number(),
      porosity: z.number(),
      aw_pore: numberOrNull,
      k20: z.number(),
      cp20: z.number(),
      tf: numberOrNull,
      measured: z.array(
        z.looseObject({ prop: z.string(), measured: z.number(), model: z.number(), source: source, flag: z.boolean() }),
      ),
    }),
  ),
} as const

type Data<Key extends keyof typeof massSections> = z.infer<(typeof massSections)[Key]>

const NO_ICE = { mass: 0, slope: 0 }
const K_UNIT = 'W/(m K)'
const C_UNIT = 'J/(kg K)'
const RHO_UNIT = 'kg/m3'

/** Sensible heat capacity, J/(kg K). */
const capacity = (law: MassLaw, T_C: number): number =>
  (law.enthalpyWithoutFatCrystals(T_C + 0.01, NO_ICE) - law.enthalpyWithoutFatCrystals(T_C - 0.01, NO_ICE)) / 0.02

const plainMass = (composition: Composition, structure: Mass['structure'], ash_kg_mol: number): Mass => ({
  composition,
  structure,
  ash_kg_mol,
  syrup_DE: 42,
  fat_kinds: {},
  porosity: 0,
  pore_aw: 0.95,
})

/** A mass from printed per cent; the printed rows do not name the kinds of sugar, so nothing of it can freeze. */
function printedMass(pct: z.infer<typeof percent>, more: Partial<Mass>, crystalShare = 0): Mass {
  const total = pct.W + pct.P + pct.F + pct.S + pct.St + pct.Fi + pct.A
  const composition: Composition = {
    water: pct.W / total,
    protein: pct.P / total,
    fat: pct.F / total,
    sugars: { sucrose: pct.S / total },
    starch: pct.St / total,
    fibre: pct.Fi / total,
    ash: pct.A / total,
    alcohol: 0,
    polyols: {},
    other: 0,
    salt: 0,
    crystals: (crystalShare * pct.S) / total,
  }
  return { ...plainMass(composition, 'OW', 0.045), ...more }
}

const withDensity = (mass: Mass, density: number | null, T_C = 20): Mass =>
  density === null ? mass : { ...mass, porosity: 1 - density / condensedDensity(mass, T_C, 0) }

/** Stated within 0.5 %; figures of 0 within what their last digit leaves open; c by a central difference, as stated. */
function workedCream(data: Data<'worked_cream'>): Row[] {
  const { composition: given, boundWater } = data
  const { water = 0, protein = 0, fat = 0, sucrose = 0, lactose = 0, starch = 0, fibre = 0, ash = 0 } = given
  const rest = { alcohol: 0, polyols: {}, other: 0, salt: 0, crystals: 0 }
  const composition = { water, protein, fat, sugars: { sucrose, lactose }, starch, fibre, ash, ...rest }
  const mass = plainMass(composition, 'OW', data.M_ash_kg_mol)
  const law = massLaw(mass)
  const solution = solutionOf(mass)
  if (solution === null) return [leftOut('sugar-rich cream', 'all', 'too little free water')]
  const freezes = freezingPoint(solution)
  const row = (name: string, output: string, unit: string, computed: number, expected: number, last: number): Row =>
    compared({ case: name, output, unit, computed, expected, tolerance: Math.max(0.005 * Math.abs(expected), last) })
  const points = [
    row('sugar-rich cream', 'freezing point, linear', 'degC', freezingPointLinear(solution), data.tf_linear, 0),
    row('sugar-rich cream', 'freezing point, Raoult', 'degC', freezingPointRaoult(solution), data.tf_raoult, 0),
    row('sugar-rich cream', 'freezing point', 'degC', freezes, data.tf_norrish, 0),
  ]
  return data.rows.reduce<Row[]>((rows, at) => {
    const name = `sugar-rich cream at ${at.t} degC`
    // The row printed for the freezing point itself lies 2 mK below it: it is meant unfrozen.
    const T = Math.abs(at.t - freezes) < 0.01 ? freezes : at.t
    const ice = law.ice(T)
    rows.push(
      row(name, 'ice', 'kg/kg', ice.mass, at.iceMassFrac, 6e-5),
      row(name, 'ice, Miles', 'kg/kg', iceMiles(water, boundWater, freezes, T), at.iceMiles, 6e-5),
      row(name, 'ice, Tchigeov', 'kg/kg', iceTchigeov(water, freezes, T), at.iceTchigeov, 6e-5),
      row(name, 'H', 'kJ/kg', law.enthalpy(T, ice) / 1000, at.H_kJ_kg, 0.006),
      row(name, 'k', K_UNIT, law.k(T, ice), at.k, 0),
      row(name, 'rho', RHO_UNIT, law.rho(T, ice), at.rho, 0),
    )
    if (at.c_app_kJ_kgK !== null) {
      const slope = (law.enthalpy(T + 0.05, law.ice(T + 0.05)) - law.enthalpy(T - 0.05, law.ice(T - 0.05))) / 0.1
      rows.push(row(name, 'c', 'kJ/(kg K)', slope / 1000, at.c_app_kJ_kgK, 0))
    }
    return rows
  }, points)
}

/** Printed with four or five digits. */
function beef({ input, ...expected }: Data<'ashraeBeefExample'>): Row[] {
  const food = {
    solids: 1 - input.x_wo,
    water: input.x_wo,
    bound: 0.4 * input.x_p,
    freezes_C: input.t_f,
    fusion: 1000 * input.L0,
  }
  const tchigeov = iceTchigeov(input.x_wo, input.t_f, input.t)
  const row = (output: string, unit: string, computed: number, value: number): Row =>
    compared({ case: 'beef carcass', output, unit, computed, expected: value, tolerance: 5e-4 * Math.abs(value) })
  return [
    row('ice, Tchigeov', 'kg/kg', tchigeov, expected.iceTchigeov),
    row('ice, Miles', 'kg/kg', iceMiles(input.x_wo, food.bound, input.t_f, input.t), expected.iceMiles),
    compared({
      case: 'beef carcass',
      output: 'mass of ice',
      unit: 'kg',
      computed: tchigeov * input.mass_kg,
      expected: expected.massIce_kg,
      tolerance: 0.051,
    }),
    row('H at freezing, Chen', 'kJ/kg', enthalpyChen(food, input.t_f) / 1000, expected.H_f),
    row('H at 10 degC, Chen', 'kJ/kg', enthalpyChen(food, 10) / 1000, expected.H_10),
    row('H at -20 degC, Chen', 'kJ/kg', enthalpyChen(food, -20) / 1000, expected['H_-20']),
  ]
}

/**
 * Porosity printed with three digits; 1 % on the model's own figure, 10 % on the measured one, 12.5 % where the sample
 * was denser than its batter.
 */
function yellowCake({ rows }: Data<'yellowCakeCheck'>): Row[] {
  const densest = Math.max(...rows.map((row) => row.rho))
  return rows.flatMap(({ state, rho, porosity, k_model, k_measured, pct, a_w, t }) => {
    const name = `yellow cake, ${state}`
    const mass = withDensity(printedMass(pct, { pore_aw: a_w }), rho, t)
    const k = massLaw(mass).k(t, NO_ICE)
    const within = rho === densest ? 0.125 : 0.1
    return [
      compared({
        case: name,
        output: 'porosity',
        unit: '',
        computed: mass.porosity,
        expected: porosity,
        tolerance: 0.0005,
      }),
      compared({ case: name, output: 'k', unit: K_UNIT, computed: k, expected: k_model, tolerance: 0.01 * k_model }),
      compared({
        case: name,
        output: 'k, measured',
        unit: K_UNIT,
        computed: k,
        expected: k_measured,
        tolerance: within * k_measured,
      }),
    ]
  })
}

/** Fats that count as set, told by the name of the mass: the rows do not say. */
const setFats: readonly (readonly [RegExp, Mass['fat_kinds']])[] = [
  [/^dark_chocolate$/, { cocoaButter: 1 }],
  [/^(milk|white)_chocolate$/, { cocoaButter: 0.8, milkFat: 0.2 }],
  [/_coating$/, { lauric: 1 }],
]

/** A miss that the file itself flags lies beyond this share. */
const FLAGGED = 0.15

function massRows(rows: Data<'masses'>): Row[] {
  return rows.flatMap((row) => {
    const solid = printedMass(
      row.pct,
      {
        structure: row.structure,
        fat_kinds: setFats.find(([pattern]) => pattern.test(row.id))?.[1] ?? {},
        ...(row.aw_pore === null ? {} : { pore_aw: row.aw_pore }),
      },
      row.sugarCrystalFrac,
    )
    const mass = withDensity(solid, row.rho_app)
    const law = massLaw(mass)
    const at = (output: string, unit: string, computed: number, expected: number, tolerance: number): Row =>
      compared({ case: row.id, output, unit, computed, expected, tolerance })
    const found = {
      k: (T: number) => law.k(T, NO_ICE),
      rho: (T: number) => law.rho(T, NO_ICE),
      cp: (T: number) => capacity(law, T),
    }
    return [
      // Printed with three digits; compositions with three.
      at('k at 20 degC', K_UNIT, found.k(20), row.k20, 0.004 * row.k20),
      at('cp at 20 degC', C_UNIT, found.cp(20), row.cp20, 0.0025 * row.cp20),
      at('rho at 20 degC', RHO_UNIT, found.rho(20), row.rho, 0.0025 * row.rho),
      at('porosity', '', mass.porosity, row.porosity, 0.0061),
      leftOut(row.id, 'freezing point', 'the kinds of sugar and minerals are not in the file'),
      ...row.measured.map(({ prop, measured, flag }): Row => {
        const parts = /^(k|rho|cp)(?: at (\d+) °C)?$/.exec(prop)
        if (parts === null)
          return leftOut(row.id, `${prop}, measured`, 'measured on another composition, or a freezing point')
        if (flag) return leftOut(row.id, `${prop}, measured`, 'flagged in the file as a known miss')
        const of = parts[1] as keyof typeof found
        const unit = { k: K_UNIT, rho: RHO_UNIT, cp: C_UNIT }[of]
        return at(`${prop}, measured`, unit, found[of](Number(parts[2] ?? 20)), measured, FLAGGED * measured)
      }),
    ]
  })
}

/** Properties of chocolate and cocoa butter by the first words of a line. */
const chocolateLines: readonly (readonly [RegExp, string, 'k' | 'c' | 'rho', number])[] = [
  [/^k dark/, 'chocolate-dark-50', 'k', 0.16],
  [/^cp chocolate/, 'chocolate-dark-50', 'c', 0.03],
  [/^cp cocoa butter/, 'cocoa-butter', 'c', 0.03],
  [/^rho chocolate solid/, 'chocolate-dark-50', 'rho', 0.03],
  // Cocoa powder and crystals keep their 20 °C density: 5 % on the melt.
  [/^rho chocolate liquid/, 'chocolate-dark-50', 'rho', 0.06],
  [/^rho cocoa butter/, 'cocoa-butter', 'rho', 0.03],
]

function chocolate(rows: Data<'chocolate'>): Row[] {
  return rows.map(({ prop, T, measured, source: key }): Row => {
    const name = `${prop}, ${T} degC`
    const line = chocolateLines.find(([pattern]) => pattern.test(prop))
    if (line === undefined) return leftOut(name, 'measured', 'no mass of this kind is tabulated')
    if (prop.startsWith('k dark') && Number(T) === 15)
      return leftOut(name, 'measured', 'its source flags it as disturbed by crystallization')
    const [, id, of, within] = line
    const law = ingredientLaw(id)
    const ends = String(T).split('-').map(Number)
    const at = ends.reduce((sum, end) => sum + end, 0) / ends.length
    const computed = of === 'c' ? capacity(law, at) : law[of](at, NO_ICE)
    const size = typeof measured === 'number' ? measured : measured[0]
    const unit = { k: K_UNIT, rho: RHO_UNIT, c: C_UNIT }[of]
    return compared({
      case: name,
      output: 'measured',
      unit,
      computed,
      expected: measured,
      tolerance: within * size,
      ...(key === undefined ? {} : { source: key }),
    })
  })
}

function ingredientLaw(id: string): MassLaw {
  const ingredient = findIngredient(id)
  if (ingredient === undefined) throw new Error(`no ingredient "${id}"`)
  const lines = [{ ingredient, amount: { kind: 'mass' as const, mass: 1 } }]
  return massLaw(makeRecipe({ lines, waterLoss: 0, air: { kind: 'none' } }).mass)
}

/** How each section is compared, by its key in the file. */
export const massSectionRows: { readonly [Key in keyof typeof massSections]: (data: Data<Key>) => Row[] } = {
  freezingChecks: freezingCheckRows,
  worked_cream: workedCream,
  ashraeBeefExample: beef,
  yellowCakeCheck: yellowCake,
  chocolate,
  masses: massRows,
}
