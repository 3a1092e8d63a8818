import { wetBulb } from '../boundary/psychrometrics.ts'
import { type ComponentName, polynomials, substances, value } from '../materials/components.ts'
import { SYRUP_K, solutes, syrupMolarMass } from '../materials/composition.ts'
import { type FatKind, fats } from '../materials/fats.ts'
import { effectiveMedium, kopelman, krischer, levy, maxwellEucken, parallel, series } from '../materials/mixing.ts'
import {
  airConductivity,
  airDensity,
  boilingPoint,
  evaporationHeat,
  saturationPressure,
  vapourConductivity,
  vapourDiffusion,
} from '../materials/vapour.ts'
import { findWall } from '../materials/wall.ts'
import { z } from '../zod.ts'
import type { Row } from './report.ts'
import { compared, leftOut } from './vector-row.ts'

/* Laws and constants: what needs no mass. */

const property = z.enum(['k', 'alpha', 'rho', 'cp'])
const componentName = z.enum(['water', 'ice', 'protein', 'fat', 'carb', 'fibre', 'ash'])
const triple = z.tuple([z.number(), z.number(), z.number()])
const pair = z.tuple([z.number(), z.number()])

export const lawSections = {
  componentPolynomials: z.looseObject({
    components: z.partialRecord(componentName, z.partialRecord(property, triple)),
  }),
  polynomialValues: z.array(z.looseObject({ t: z.number() })),
  waterIceReference: z.array(
    z.looseObject({
      component: componentName,
      t: z.number(),
      property,
      polynomial: z.number(),
      iapws: z.number(),
      diffPct: z.number(),
    }),
  ),
  solutes: z.array(z.looseObject({ name: z.string(), M_g_mol: z.number(), norrishMinusK: z.number() })),
  mixingTestVectors: z.array(
    z.looseObject({ case: z.string(), kc: z.number(), kd: z.number(), vd: z.number().min(0).max(1) }),
  ),
  porousDefaults: z.looseObject({
    kvap_saturated: z.array(z.looseObject({ t: z.number(), k_vap: z.number(), k_air: z.number(), D: z.number() })),
  }),
  baking: z.looseObject({ boilingPoint: z.array(z.looseObject({ aw: z.number(), T: z.number() })) }),
  fats: z.looseObject({
    SFC: z.looseObject({ T: z.array(z.number()) }),
    dH_total_J_g: z.record(z.string(), z.union([z.number(), z.string()])),
  }),
  crystallineSucrose: z.looseObject({ rho: z.number(), k: z.number(), cp_table: z.array(pair) }),
  materials: z.array(z.looseObject({ name: z.string(), rho: z.number(), cp: z.number(), k: z.number() })),
  moistAir: z.looseObject({
    psat_Pa: z.array(pair),
    latent_kJ_kg: z.array(pair),
    wetBulb: z.array(z.looseObject({ T: z.number(), W: z.number(), Twb: z.number() })),
  }),
} as const

type Data<Key extends keyof typeof lawSections> = z.infer<(typeof lawSections)[Key]>

const units = { k: 'W/(m K)', alpha: 'm2/s', rho: 'kg/m3', cp: 'J/(kg K)' } as const
const nameOf = (name: z.infer<typeof componentName>): ComponentName => (name === 'carb' ? 'carbohydrate' : name)
const polynomialOf = (name: z.infer<typeof componentName>, of: z.infer<typeof property>) =>
  polynomials[nameOf(name)][of === 'cp' ? 'c' : of]

function coefficients({ components }: Data<'componentPolynomials'>): Row[] {
  return Object.entries(components).flatMap(([name, row]) =>
    Object.entries(row).flatMap(([of, expected]) =>
      expected.map((coefficient, order) =>
        compared({
          case: `polynomial of ${name}`,
          output: `${of} c${order}`,
          unit: units[of as keyof typeof units],
          computed: polynomialOf(componentName.parse(name), property.parse(of))[order] ?? null,
          expected: coefficient,
          tolerance: 1e-9 * Math.abs(coefficient),
        }),
      ),
    ),
  )
}

/** Printed with four to six digits: 1e-4, alpha and air 5e-4. */
function polynomialValues(rows: Data<'polynomialValues'>): Row[] {
  return rows.flatMap(({ t, ...columns }) =>
    Object.entries(columns).flatMap(([name, figures]) => {
      const found = componentName.safeParse(name)
      return Object.entries(z.record(z.string(), z.number()).parse(figures)).map(([of, expected]): Row => {
        const label = { case: `${name} at ${t} degC`, output: of }
        if (name === 'air') {
          const computed = of === 'k' ? airConductivity(t) : airDensity(t)
          const unit = of === 'k' ? units.k : units.rho
          return compared({ ...label, unit, computed, expected, tolerance: 5e-4 * expected })
        }
        if (!found.success) return leftOut(label.case, of, 'no such component')
        const at = (key: z.infer<typeof property>) => value(polynomialOf(found.data, key), t)
        const loose = of.startsWith('alpha')
        return compared({
          ...label,
          unit: loose ? units.alpha : units[of as 'k'],
          computed: of === 'alphaFromKRhoCp' ? at('k') / (at('rho') * at('cp')) : at(property.parse(of)),
          expected,
          tolerance: (loose ? 5e-4 : 1e-4) * expected,
        })
      })
    }),
  )
}

function waterAndIce(rows: Data<'waterIceReference'>): Row[] {
  return rows.flatMap(({ component, t, property: of, polynomial, iapws, diffPct }) => {
    const label = { case: `${component} at ${t} degC against reference` }
    const computed = value(polynomialOf(component, of), t)
    const miss = 100 * (computed / iapws - 1)
    return [
      compared({ ...label, output: of, unit: units[of], computed, expected: polynomial, tolerance: 1e-4 * polynomial }),
      compared({
        ...label,
        output: `${of}, difference`,
        unit: '%',
        computed: miss,
        expected: diffPct,
        tolerance: 0.02,
      }),
    ]
  })
}

function soluteRows(rows: Data<'solutes'>): Row[] {
  return rows.flatMap(({ name, M_g_mol, norrishMinusK }): Row[] => {
    const known = name in solutes ? solutes[name as keyof typeof solutes] : undefined
    const DE = /DE (\d+)/.exec(name)?.[1]
    const found = known ?? (DE === undefined ? undefined : { kg_mol: syrupMolarMass(Number(DE)), K: SYRUP_K })
    if (found === undefined) return [leftOut(name, 'M, K', 'no such solute is known here')]
    const grams = 1000 * found.kg_mol
    return [
      compared({
        case: name,
        output: 'M',
        unit: 'g/mol',
        computed: grams,
        expected: M_g_mol,
        tolerance: 2e-3 * M_g_mol,
      }),
      compared({ case: name, output: 'K', unit: '', computed: found.K, expected: norrishMinusK, tolerance: 1e-9 }),
    ]
  })
}

const mixtures: Readonly<Record<string, (kc: number, kd: number, v: number) => number>> = {
  parallel: (kc, kd, v) => parallel(twoParts(kc, kd, v)),
  series: (kc, kd, v) => series(twoParts(kc, kd, v)),
  maxwell_kc_continuous: maxwellEucken,
  maxwell_kd_continuous: (kc, kd, v) => maxwellEucken(kd, kc, 1 - v),
  levy: (kc, kd, v) => levy(kd, kc, v),
  emt: effectiveMedium,
  kopelman_iso: kopelman,
  krischer_f0p2: (kc, kd, v) => krischer(twoParts(kc, kd, v), 0.2),
}
const twoParts = (kc: number, kd: number, v: number) => [
  { k: kc, share: 1 - v },
  { k: kd, share: v },
]

/** Printed with four decimals. */
function mixing(rows: Data<'mixingTestVectors'>): Row[] {
  return rows.flatMap(({ case: name, kc, kd, vd, ...figures }) =>
    Object.entries(figures).map(([law, expected]): Row => {
      const of = mixtures[law]
      if (of === undefined || typeof expected !== 'number') return leftOut(name, law, 'no such law is known here')
      return compared({
        case: name,
        output: law,
        unit: units.k,
        computed: of(kc, kd, vd),
        expected,
        tolerance: 5.01e-5,
      })
    }),
  )
}

/** Printed with three digits. */
function pores({ kvap_saturated }: Data<'porousDefaults'>): Row[] {
  return kvap_saturated.flatMap(({ t, k_vap, k_air, D }) => {
    const name = `humid pore at ${t} degC`
    const row = (output: string, unit: string, computed: number, expected: number) =>
      compared({ case: name, output, unit, computed, expected, tolerance: 5e-3 * expected })
    return [
      row('k_vap', units.k, vapourConductivity(t, 1), k_vap),
      row('k_air', units.k, airConductivity(t), k_air),
      row('D', 'm2/s', vapourDiffusion(t), D),
    ]
  })
}

/** Printed with two decimals. */
function boiling({ boilingPoint: rows }: Data<'baking'>): Row[] {
  return rows.map(({ aw, T }) =>
    compared({
      case: `water activity ${aw}`,
      output: 'boils at',
      unit: 'degC',
      computed: boilingPoint(aw),
      expected: T,
      tolerance: 0.0051,
    }),
  )
}

const fatNames: Readonly<Record<string, FatKind>> = {
  milkFat: 'milkFat',
  cocoaButterTempered: 'cocoaButter',
  cocoaButterV: 'cocoaButter',
  cocoaButterUntempered: 'cocoaButterUntempered',
  lauricCBS: 'lauric',
  hazelnutLikeOil: 'oil',
}

function solidFat({ SFC: { T, ...curves }, dH_total_J_g }: Data<'fats'>): Row[] {
  const rows = Object.entries(curves).flatMap(([name, column]): Row[] => {
    const kind = fatNames[name]
    if (kind === undefined || !Array.isArray(column)) return []
    return T.map((at, i) =>
      compared({
        case: name,
        output: `solid at ${at} degC`,
        unit: '%',
        computed: 100 * fats[kind].solid(at),
        expected: Number(column[i]),
        tolerance: 1e-6,
      }),
    )
  })
  const heats = Object.entries(dH_total_J_g).flatMap(([name, expected]): Row[] => {
    const kind = fatNames[name]
    if (kind === undefined || typeof expected !== 'number') return []
    return [
      compared({
        case: name,
        output: 'heat of melting',
        unit: 'J/g',
        computed: fats[kind].fusion / 1000,
        expected,
        tolerance: 1e-6,
      }),
    ]
  })
  return [...rows, ...heats]
}

/** The fit is stated within 0.9 % of the table. */
function crystals({ rho, k, cp_table }: Data<'crystallineSucrose'>): Row[] {
  const name = 'sucrose crystals'
  const { sucroseCrystal } = substances
  return [
    compared({
      case: name,
      output: 'rho',
      unit: units.rho,
      computed: sucroseCrystal.rho(20),
      expected: rho,
      tolerance: 1e-6,
    }),
    compared({ case: name, output: 'k', unit: units.k, computed: sucroseCrystal.k(20), expected: k, tolerance: 1e-9 }),
    ...cp_table.map(([T, expected]) =>
      compared({
        case: name,
        output: `cp at ${T} degC`,
        unit: units.cp,
        computed: sucroseCrystal.c(T),
        expected,
        tolerance: 0.009 * expected,
      }),
    ),
  ]
}

/** First words of a name in the file, and the wall that it means. */
const wallNames: readonly (readonly [RegExp, string])[] = [
  [/^steel/, 'steel'],
  [/^stainless/, 'stainless'],
  [/^aluminium, Si/, 'aluminium'],
  [/^aluminium, pure/, 'aluminium-foil'],
  [/^copper/, 'copper'],
  [/^PVC/, 'pvc'],
  [/^polypropylene/, 'polypropylene'],
  [/^polyethylene LD/, 'film'],
  [/^polyethylene HD/, 'polyethylene'],
  [/^polycarbonate/, 'polycarbonate'],
  [/^silicone/, 'silicone'],
  [/^glass/, 'glass'],
  [/^softwood/, 'wood'],
  [/^plywood/, 'plywood'],
  [/^chipboard/, 'chipboard'],
  [/^parchment/, 'parchment'],
  [/^solid board/, 'board'],
  [/^corrugated/, 'corrugated'],
  [/^EPS/, 'foam'],
  [/^marble/, 'stone'],
]

function walls(rows: Data<'materials'>): Row[] {
  return rows.flatMap(({ name, ...expected }): Row[] => {
    const id = wallNames.find(([pattern]) => pattern.test(name))?.[1]
    const wall = id === undefined ? undefined : findWall(id)
    if (wall === undefined) return [leftOut(name, 'k, rho, cp', 'no such wall material')]
    return (['k', 'rho', 'cp'] as const).map((of) =>
      compared({
        case: name,
        output: of,
        unit: units[of],
        computed: wall[of === 'cp' ? 'c' : of],
        expected: expected[of],
        tolerance: 1e-9 * expected[of],
      }),
    )
  })
}

function moistAir({ psat_Pa, latent_kJ_kg, wetBulb: bulbs }: Data<'moistAir'>): Row[] {
  return [
    ...psat_Pa.map(([T, expected]) =>
      compared({
        case: `vapour at ${T} degC`,
        output: 'saturation pressure',
        unit: 'Pa',
        computed: saturationPressure(T),
        expected,
        tolerance: 1e-4 * expected,
      }),
    ),
    // The fit is stated within 0.06 kJ/kg; printed with one decimal.
    ...latent_kJ_kg.map(([T, expected]) =>
      compared({
        case: `vapour at ${T} degC`,
        output: 'heat of evaporation',
        unit: 'kJ/kg',
        computed: evaporationHeat(T) / 1000,
        expected,
        tolerance: 0.11,
      }),
    ),
    ...bulbs.map(({ T, W, Twb }) =>
      compared({
        case: `air of ${T} degC, ${W} kg/kg`,
        output: 'wet bulb',
        unit: 'degC',
        computed: wetBulb(T, W),
        expected: Twb,
        tolerance: 0.002,
      }),
    ),
  ]
}

/** How each section is compared, by its key in the file. */
export const lawRows: { readonly [Key in keyof typeof lawSections]: (data: Data<Key>) => Row[] } = {
  componentPolynomials: coefficients,
  polynomialValues,
  waterIceReference: waterAndIce,
  solutes: soluteRows,
  mixingTestVectors: mixing,
  porousDefaults: pores,
  baking: boiling,
  fats: solidFat,
  crystallineSucrose: crystals,
  materials: walls,
  moistAir,
}
