import { type EvidenceRow, strain } from '../../core/verification/evidence.ts'

/* How the figures of the evidence are written. They stay in the units of their sources: they are compared, not used. */

const HOUR = 3600
const raised = '⁰¹²³⁴⁵⁶⁷⁸⁹'

/** A number to so many digits, with a true minus; what is very small or large in powers of ten. */
export function digits(value: number, count = 4): string {
  if (value === 0) return '0'
  if (!Number.isFinite(value)) return 'none'
  const size = Math.abs(value)
  if (size >= 1e6 || size < 1e-3) {
    const [mantissa = '', exponent = ''] = value.toExponential(1).split('e')
    const power = Math.abs(Number(exponent))
      .toString()
      .replace(/\d/g, (digit) => raised[Number(digit)] ?? '')
    return `${mantissa.replace('-', '−')} × 10${Number(exponent) < 0 ? '⁻' : ''}${power}`
  }
  return value.toLocaleString('en-GB', { maximumSignificantDigits: count }).replace('-', '−')
}

/** A unit as it is written; hours for long times. */
const unitWord = (unit: string): string => (unit === 'degC' ? '°C' : unit === '-' ? '' : unit)

function inHours({ unit, expected, computed }: EvidenceRow): boolean {
  return unit === 's' && Math.max(...[expected ?? computed ?? 0].flat().map(Math.abs)) >= HOUR
}

const spaced = (number: string, unit: string): string => (unit === '' ? number : `${number}\u00a0${unit}`)

/** One value or a span of a row, in its unit. */
export function valueWords(row: EvidenceRow, value: number | readonly number[] | undefined, count = 4): string {
  if (value === undefined) return 'none'
  const hours = inHours(row)
  const shown = [value].flat().map((one) => digits(hours ? one / HOUR : one, count))
  const unit = hours ? 'h' : unitWord(row.unit)
  const [low, high] = [shown[0] ?? '', shown.at(-1) ?? '']
  return spaced(low === high ? low : `${low} to ${high}`, unit)
}

/** A difference of a row, such as its error; differences of temperatures are K. */
export function differenceWords(row: EvidenceRow, value: number | undefined): string {
  return valueWords({ ...row, unit: row.unit === 'degC' ? 'K' : row.unit }, value, 3)
}

/** What a figure is, from the short words of its file. */
export const figureName = ({ output }: EvidenceRow): string =>
  output
    .replace(/\b([xyzr])_m ([\d.]+)/g, '$1 $2 m')
    .replaceAll('_', ' ')
    .replaceAll('degC', '°C')

/** How much of its tolerance a figure uses up. */
export function strainWords(row: EvidenceRow): string {
  const used = strain(row)
  if (used < 0) return ''
  if (!Number.isFinite(used)) return 'no figure'
  if (used === 0) return '0\u00a0%'
  return used < 0.01 ? 'below 1\u00a0%' : `${Math.round(100 * used)}\u00a0%`
}

/** How a row stands, in words. */
export function verdictWords({ verdict, known }: EvidenceRow): string {
  if (verdict === 'ok') return 'Within'
  if (verdict === 'not applicable') return 'Not judged'
  return known === undefined ? 'Outside, reason not known' : 'Outside, reason known'
}

/** A count with its noun. */
export const counted = (count: number, noun: string, many = `${noun}s`): string =>
  `${count.toLocaleString('en-GB')} ${count === 1 ? noun : many}`
