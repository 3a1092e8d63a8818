import type { FaceCondition } from '../boundary/face.ts'
import { steady } from '../boundary/profile.ts'
import { sheetBody } from '../geometry/shapes/sheet.ts'
import { runJourney } from '../journey/journey.ts'
import { fixedMaterial } from '../materials/fixed.ts'
import { judgeFollowed } from '../outcomes/rule-verdict.ts'
import { findRule } from '../outcomes/rules.ts'
import { fromHours, fromMm } from '../units.ts'
import type { Row } from './report.ts'
import type { SafetyFile } from './safety-file.ts'
import { compared, leftOut } from './vector-row.ts'

/** Hot enough that the course has settled before any rule's hours begin, °C. */
const START_C = 200
/** Watery mass of the file's orientation. */
const mass = fixedMaterial({ id: 'mass', title: 'Mass', k: 0.5, rho: 1080, c: 3500 })
/** Share of the hours by which the file's one-term formula and whole courses may differ, beside rounding. */
const FORMULA = 0.002
/** Half a unit of the last digit of a thickness, mm. */
const ROUNDING_MM = 0.05

type OrientationRow = NonNullable<SafetyFile['thicknessOrientation']>['rows'][number]

/** Share of a rule's hours that the middle of a slab takes, at its tightest step. */
function shareOfHours({ rule: id, air_C, h_W_m2K, half_mm }: OrientationRow): number | undefined {
  const rule = findRule(id)
  if (rule === undefined) return undefined
  const body = sheetBody({})
  const face: FaceCondition =
    h_W_m2K === null
      ? { kind: 'fixed', surface_C: steady(air_C) }
      : { kind: 'convective', h: h_W_m2K, air_C: steady(air_C), resistances: [] }
  const thickness = 2 * fromMm(half_mm)
  const course = runJourney(
    {
      body,
      lining: [],
      fill: [{ name: 'fill[0]', material: mass, thickness, start_C: START_C }],
      stages: [
        {
          name: 'cool',
          start: [],
          faces: { top: face, bottom: face },
          air_C: steady(air_C),
          until: { after: fromHours(20), max: fromHours(20) },
        },
      ],
      probes: [],
    },
    { fidelity: 'standard' },
  )
  const { steps } = judgeFollowed(rule, course, { x: 0.5, y: 0.5, z: 0.5 })
  return Math.max(...steps.map(({ taken_h = Number.POSITIVE_INFINITY, within_h }) => taken_h / within_h))
}

/** The greatest thickness that meets a rule takes all of its hours: slabs of the file's thicknesses, cooled by the core. */
export function thicknessRows({ rows }: NonNullable<SafetyFile['thicknessOrientation']>): Row[] {
  return rows.map((row): Row => {
    const output = `${row.rule}, air ${row.air_C} degC, h ${row.h_W_m2K ?? 'without limit'}, half ${row.half_mm} mm: share of the hours`
    const share = shareOfHours(row)
    if (share === undefined) return leftOut('thicknessOrientation', output, `no rule ${row.rule}`)
    return compared({
      case: 'thicknessOrientation',
      output,
      unit: '',
      computed: share,
      expected: 1,
      tolerance: FORMULA + (2 * ROUNDING_MM) / row.half_mm,
    })
  })
}
