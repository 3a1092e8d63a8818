import type { Fault } from '../errors.ts'
import { coatSettingTime, contactTemperature, dewPoint } from '../outcomes/contact.ts'
import { swelling_C } from '../outcomes/kinetics/batter-starch.ts'
import { equalStrength } from '../outcomes/kinetics/gelatin.ts'
import { frozenShare } from '../outcomes/kinetics/ice.ts'
import { getLawKind, type SetsBy, settingLaw } from '../outcomes/kinetics/index.ts'
import type { Level } from '../outcomes/kinetics/law.ts'
import { follow } from '../outcomes/kinetics/spans.ts'
import { GRAVITY, LOAD_LIMITS, layersLoad, sagOf, slumpOf, standingHeight } from '../outcomes/structure.ts'
import { z } from '../zod.ts'
import { type Row, summarize, type Verification } from './report.ts'
import { readerOf } from './setting-figures.ts'
import { compared, leftOut, sameWords } from './vector-row.ts'

export const SETTING_FORMAT = 'setting-reference/1'

const finite = z.number()
const numbers = z.union([finite, z.array(finite)])
const figures = z.record(z.string(), z.union([finite, z.boolean(), z.null()]))
const vector = z.looseObject({
  id: z.string(),
  family: z.string(),
  inputs: z.record(z.string(), z.unknown()),
  history: z.array(z.tuple([finite, finite])).min(1),
  expected: z.partialRecord(z.enum(['low', 'typical', 'high']), figures),
  tolerance: z.record(z.string(), finite),
})
const fileSchema = z.looseObject({
  families: z.record(z.string(), z.looseObject({ params: z.record(z.string(), z.unknown()) })).exactOptional(),
  rules: z.unknown().exactOptional(),
  vectors: z.array(vector).exactOptional(),
  formula_checks: z
    .array(
      z.looseObject({
        id: z.string(),
        what: z.string(),
        inputs: z.record(z.string(), numbers),
        value: numbers,
        tolerance: z.string(),
      }),
    )
    .exactOptional(),
})
type SettingFile = z.infer<typeof fileSchema>
type Formula = NonNullable<SettingFile['formula_checks']>[number]

/** Whether a parsed file says that it holds setting vectors. */
export const isSettingVectors = (name: string | undefined): boolean => name === SETTING_FORMAT

const levels: readonly Level[] = ['low', 'typical', 'high']
/** Digits of a temperature in the file, K. */
const ROUNDED_K = 0.006
/** Share of a constant that its digits in the file leave open. */
const ROUNDED = 1e-5

/** What a vector allows its figure to be off, by what the key is. */
function toleranceOf(key: string, expected: number, tolerance: Readonly<Record<string, number>>): number {
  const { extent_abs = 0, modulus_rel = 0, time_s = 0, time_rel = 0, dE_abs = 0 } = tolerance
  if (/^(t|s)_/.test(key)) return Math.max(time_s, time_rel * Math.abs(expected))
  if (/^(G|SF|linear|gap)_/.test(key)) return modulus_rel * Math.abs(expected)
  if (/^T_/.test(key)) return ROUNDED_K
  return /^dE_/.test(key) ? dE_abs : extent_abs
}

function vectorRows({ vectors = [] }: SettingFile): Row[] {
  return vectors.flatMap((entry) =>
    levels.flatMap((level): Row[] => {
      const expected = entry.expected[level]
      if (expected === undefined) return []
      const read = readerOf(entry, level)
      const name = `${entry.id}, ${level}`
      if (read === undefined)
        return [leftOut(name, entry.family, `no vectors of the family "${entry.family}" are known here`)]
      return Object.entries(expected).map(([key, value]): Row => {
        const found = read(key)
        if (found === undefined) return leftOut(name, key, 'no such figure is known here')
        if (typeof value === 'boolean' || typeof found === 'boolean')
          return sameWords(name, key, String(found), String(value))
        const unit = /^(t|s)_/.test(key) ? 's' : key.startsWith('G_') ? 'Pa' : key.startsWith('T_') ? 'degC' : ''
        const tolerance = value === null ? 0 : toleranceOf(key, value, entry.tolerance)
        return compared({ case: name, output: key, unit, computed: found, expected: value, tolerance })
      })
    }),
  )
}

/** Laws whose parameters the file lists, by its own names. */
const lawIds: Readonly<Record<string, SetsBy['by']>> = {
  flour_dough_starch: 'dough-starch',
  sugar_batter_starch: 'batter-starch',
  egg_set: 'egg',
  egg_yolk_dose: 'yolk',
  whey_protein: 'whey',
  crust_browning: 'crust',
  gelatin: 'gelatin',
  agar: 'agar',
  carrageenan_milk: 'carrageenan',
  pectin_hm: 'pectin',
  starch_cream: 'starch-cream',
  chocolate_tempered: 'tempered-chocolate',
  milk_fat: 'milk-fat',
  frozen_cream: 'ice',
}

const threeLevels = z.looseObject({ low: finite, typical: finite, high: finite })
const points = z.looseObject({ points: z.array(z.tuple([finite, finite])) })

/** A place held at one temperature for so long. */
function rested(by: SetsBy, T_C: number, time: number, start_C = T_C): number {
  const law = settingLaw(by, 'typical')
  let extent = Number.NaN
  follow(law, { t: [0, 0, time], T_C: [start_C, T_C, T_C] }, (_, at_C, values) => {
    extent = law.extent(values, at_C)
  })
  return extent
}

const eggKinds = {
  egg_white_soft: 'white-soft',
  egg_yolk: 'yolk',
  whole_egg: 'whole',
  custard: 'custard',
  egg_white_firm: 'white-firm',
} as const

/** Rows of parameters that are no plain triple: found again by what the law does. */
function behaviourRows(family: string, name: string, data: unknown): Row[] | undefined {
  if (family === 'egg_set' && name === 'T_set10') {
    const temperatures = data as Readonly<Record<string, unknown>>
    return Object.entries(eggKinds).map(([key, kind]) =>
      compared({
        case: family,
        output: `${key}: set after 10 min at ${String(temperatures[key])} degC`,
        unit: '',
        computed: rested({ by: 'egg', kind }, Number(temperatures[key]), 600),
        expected: 0.9,
        tolerance: 1e-4,
      }),
    )
  }
  if (family === 'sugar_batter_starch' && name === 'Tc0') {
    const temperatures = data as Readonly<Record<string, unknown>>
    return Object.entries(swelling_C).map(([kind, T_C]) =>
      compared({
        case: family,
        output: `${name} ${kind}`,
        unit: 'degC',
        computed: T_C,
        expected: Number(temperatures[kind]),
        tolerance: 0,
      }),
    )
  }
  if (family === 'pectin_hm' && name === 'T_set') {
    const grades = data as Readonly<Record<string, readonly number[]>>
    const { parameters } = getLawKind('pectin')
    return ['rapid', 'medium', 'slow'].flatMap((grade) =>
      levels.map((level, i) =>
        compared({
          case: family,
          output: `${name} ${grade}, ${level}`,
          unit: 'degC',
          computed: parameters[grade]?.[level] ?? null,
          expected: grades[grade]?.[i] ?? null,
          tolerance: 0,
        }),
      ),
    )
  }
  const curve = points.safeParse(data)
  if (name === 's_eq' && curve.success)
    return curve.data.points.map(([T_C, share]) => {
      const fat: SetsBy = family === 'milk_fat' ? { by: 'milk-fat' } : { by: 'tempered-chocolate' }
      const scale = family === 'milk_fat' ? 1 : 0.76
      return compared({
        case: family,
        output: `solid in balance at ${T_C} degC`,
        unit: '',
        computed: scale * rested(fat, T_C, 1e9, 10),
        expected: share,
        tolerance: 1e-6,
      })
    })
  return undefined
}

function familyRows({ families = {} }: SettingFile): Row[] {
  return Object.entries(families).flatMap(([family, { params }]): Row[] => {
    const id = lawIds[family]
    if (id === undefined) return [leftOut(family, 'parameters', 'no law of this family')]
    const own = getLawKind(id).parameters
    return Object.entries(params).flatMap(([name, data]): Row[] => {
      const behaviour = behaviourRows(family, name, data)
      if (behaviour !== undefined) return behaviour
      const given = threeLevels.safeParse(data)
      if (!given.success) return [leftOut(family, name, 'given in words, or for the user to say')]
      return levels.map((level) =>
        compared({
          case: family,
          output: `${name}, ${level}`,
          unit: String(given.data.unit ?? ''),
          computed: own[name]?.[level] ?? null,
          expected: given.data[level],
          tolerance: ROUNDED * Math.abs(given.data[level]),
        }),
      )
    })
  })
}

const structureRules = z.looseObject({
  structure: z.looseObject({
    beta_f: z.looseObject({ gelatin: finite, agar: finite, starch_cream: finite }),
    limits: z.record(z.string(), z.union([finite, z.string()])),
  }),
})

function structureRows({ rules }: SettingFile): Row[] {
  const parsed = structureRules.safeParse(rules)
  if (!parsed.success) return []
  const { beta_f, limits } = parsed.data.structure
  const row = (output: string, computed: number | undefined, expected: unknown): Row =>
    compared({
      case: 'structure',
      output,
      unit: '',
      computed: computed ?? null,
      expected: Number(expected),
      tolerance: 0,
    })
  const failsAt = (by: SetsBy) => settingLaw(by, 'typical').strength?.failsAt
  return [
    row('gelatin fails at', failsAt({ by: 'gelatin', gelatin_pct: 3 }), beta_f.gelatin),
    row('agar fails at', failsAt({ by: 'agar', agar_pct: 1 }), beta_f.agar),
    row('starch cream fails at', failsAt({ by: 'starch-cream', starch_pct: 7 }), beta_f.starch_cream),
    row('unmoulding, factor', LOAD_LIMITS.unmould.factor, limits.unmould_SF),
    row('unmoulding, sag', LOAD_LIMITS.unmould.sag, limits.unmould_sag),
    row('carrying, factor', LOAD_LIMITS.transport.factor, limits.transport_SF),
    row('carrying, sag', LOAD_LIMITS.transport.sag, limits.transport_sag),
    row('too warm, factor', LOAD_LIMITS.warm.factor, limits.warm_again_SF),
  ]
}

type Inputs = Readonly<Record<string, readonly number[]>>

/** Formulas by the inputs that they take. */
const formulas: Readonly<Record<string, (inputs: Inputs) => number[]>> = {
  'RH T': ({ T, RH }) => [dewPoint(T![0]!, RH![0]!)],
  'B_recipe B_yours': ({ B_recipe, B_yours }) => [equalStrength(B_recipe![0]!, B_yours![0]!)],
  rho_g_H_over_G: ({ rho_g_H_over_G }) => rho_g_H_over_G!.map(sagOf),
  'G_slip H rho': ({ G_slip, H, rho }) => [sagOf((rho![0]! * GRAVITY * H![0]!) / G_slip![0]!)],
  'T c k rho': ({ T, c, k, rho }) => {
    const [one, other] = [0, 1].map((i) => ({ T_C: T![i]!, c: c![i]!, k: k![i]!, rho: rho![i]! }))
    return [contactTemperature(one!, other!)]
  },
  'H rho tau_y': ({ H, rho, tau_y }) => [slumpOf(tau_y![0]!, rho![0]!, H![0]!)],
  'h rho': ({ h, rho }) => {
    const { mass, pressure } = layersLoad(h!.map((thickness, i) => ({ thickness, density: rho![i]! })))
    return [mass, pressure / 1000]
  },
  'c dT h k q_m rho rho_core': ({ c, dT, h, k, q_m, rho, rho_core }) => [
    coatSettingTime(h![0]!, rho![0]!, q_m![0]!, { k: k![0]!, rho: rho_core![0]!, c: c![0]! }, dT![0]!),
  ],
  'SF rho sigma_f': ({ SF, rho, sigma_f }) => [standingHeight(sigma_f![0]!, SF![0]!, rho![0]!)],
  'T Tf b': ({ T, Tf, b }) => [frozenShare(T![0]!, Tf![0]!, b![0]!)],
}

const asList = (value: number | readonly number[]): readonly number[] => (typeof value === 'number' ? [value] : value)

function formulaRows({ id, what, inputs, value, tolerance }: Formula): Row[] {
  const key = Object.keys(inputs).sort().join(' ')
  if (!Object.hasOwn(formulas, key)) return [leftOut(id, what, `no formula of ${key} is known here`)]
  const computed = formulas[key]!(
    Object.fromEntries(Object.entries(inputs).map(([name, given]) => [name, asList(given)])),
  )
  const allowed = [...tolerance.matchAll(/[\d.]+(?=[\s,]|$)/g)].map(([digits]) => Number(digits))
  return asList(value).map((expected, i) =>
    compared({
      case: id,
      output: asList(value).length > 1 ? `${what}, ${i + 1}` : what,
      unit: '',
      computed: computed[i] ?? null,
      expected,
      tolerance: allowed[i] ?? allowed[0] ?? 0,
    }),
  )
}

/** Setting laws, their parameters and the formulas beside them, compared with what every forecast uses. */
export function verifySettingVectors(data: unknown): Verification & { readonly faults: readonly Fault[] } {
  const parsed = fileSchema.safeParse(data)
  if (!parsed.success) {
    const faults = parsed.error.issues.map(({ path, message }) => ({
      path: path.map(String).join('.'),
      problem: message,
      remedy: 'see shared/reference/setting-vectors.json',
    }))
    return { rows: [], summary: summarize(0, []), faults }
  }
  const file = parsed.data
  const rows = [
    ...familyRows(file),
    ...structureRows(file),
    ...vectorRows(file),
    ...(file.formula_checks ?? []).flatMap(formulaRows),
  ]
  return { rows, summary: summarize(new Set(rows.map((row) => row.case)).size, rows), faults: [] }
}
