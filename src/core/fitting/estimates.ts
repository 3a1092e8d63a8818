import type { Matrix } from 'ml-matrix'
import { NINETY } from '../deciding/inputs.ts'
import type { FitFactor } from './factors.ts'
import type { DerivedFactor, Determined, Estimate } from './fit-types.ts'

/** Share of the doubt that may be left where a factor counts as well, and as partly, determined. */
const WELL = 0.5
const PARTLY = 0.85

const determinedBy = (left: number): Determined => (left <= WELL ? 'well' : left <= PARTLY ? 'partly' : 'not')

/**
 * A number with its span after the readings; without both where they leave it as open as it was.
 * @param middle  in standard deviations of the prior, as is `deviation`
 */
export function estimateOf(
  { title, unit, sigma }: Pick<FitFactor, 'title' | 'unit' | 'sigma'>,
  middle: number,
  deviation: number,
): Estimate {
  const determined = determinedBy(deviation)
  const common = { title, unit, determined, left: deviation }
  if (determined === 'not') return common
  const shown = (z: number): number => (unit === 'factor' ? Math.exp(sigma * z) : sigma * z)
  return {
    ...common,
    value: shown(middle),
    low: shown(middle - NINETY * deviation),
    high: shown(middle + NINETY * deviation),
  }
}

/** The logarithm of a product of powers of factors, as one. */
function combined(
  title: string,
  parts: readonly { readonly index: number; readonly power: number }[],
  factors: readonly FitFactor[],
  parameters: readonly number[],
  covariance: Matrix,
): Estimate {
  let middle = 0
  let prior = 0
  let variance = 0
  for (const { index, power } of parts) {
    const weight = power * factors[index]!.sigma
    middle += weight * parameters[index]!
    prior += weight * weight
    for (const other of parts)
      variance += weight * other.power * factors[other.index]!.sigma * covariance.get(index, other.index)
  }
  const sigma = Math.sqrt(prior)
  return estimateOf({ title, unit: 'factor', sigma }, middle / sigma, Math.sqrt(Math.max(0, variance)) / sigma)
}

/** Heat passed on each face of each surroundings, and the diffusivity of each material, out of the fitted factors. */
export function derivedFactors(
  factors: readonly FitFactor[],
  parameters: readonly number[],
  covariance: Matrix,
): DerivedFactor[] {
  const all = factors.map((factor, index) => ({ ...factor, index }))
  const ofKind = (kind: FitFactor['kind']) => all.filter((factor) => factor.kind === kind)
  const films = ofKind('film').flatMap((air) =>
    ofKind('face film').map((face): DerivedFactor => {
      const parts = [air, face].map(({ index }) => ({ index, power: 1 }))
      const title = `${air.title.replace(', all faces', '')}, ${face.of}`
      return {
        kind: 'film of a face',
        of: air.of,
        faces: face.of,
        ...combined(title, parts, factors, parameters, covariance),
      }
    }),
  )
  const diffusivities = ofKind('conductivity').flatMap((k): DerivedFactor[] => {
    const heat = ofKind('heat').find(({ of }) => of === k.of)
    if (heat === undefined) return []
    const parts = [
      { index: k.index, power: 1 },
      { index: heat.index, power: -1 },
    ]
    const title = k.title.replace('conductivity', 'diffusivity')
    return [{ kind: 'diffusivity', of: k.of, ...combined(title, parts, factors, parameters, covariance) }]
  })
  return [...films, ...diffusivities]
}
