const raised: Readonly<Record<string, string>> = {
  '-': '⁻',
  '0': '⁰',
  '1': '¹',
  '2': '²',
  '3': '³',
  '4': '⁴',
  '5': '⁵',
  '6': '⁶',
  '7': '⁷',
  '8': '⁸',
  '9': '⁹',
}

/** A small number in one digit: "3 × 10⁻¹⁰"; zero as "0". */
export function powerOfTen(value: number): string {
  if (value === 0) return '0'
  const [digit = '', exponent = ''] = value.toExponential(0).split('e')
  const power = exponent.replace('+', '').replace(/./g, (sign) => raised[sign] ?? sign)
  return `${digit.replace('-', '−')} × 10${power}`
}
