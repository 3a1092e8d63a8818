/** How numbers are shown to a reader: units and rounding live here, never in the core's values. */
export interface Show {
  /** A temperature given in °C. */
  temperature(T_C: number): string
  /** A temperature difference given in K. */
  difference(dT_K: number): string
  /** A length given in m. */
  length(m: number): string
  /** A mass given in kg. */
  mass(kg: number): string
  /** A duration given in hours. */
  duration(h: number): string
  /** A moment given in hours since the plan's start. */
  moment(at_h: number): string
  /** A bare number, three significant digits at most. */
  number(value: number): string
}

const rounded = (value: number, digits: number): string => {
  const shown = value.toFixed(digits)
  return (Number(shown) === 0 ? (0).toFixed(digits) : shown).replace('-', '−')
}

/** Metric units and hours since the start: what the command line prints. */
export const metric: Show = {
  temperature: (T_C) => `${rounded(T_C, 1)} °C`,
  difference: (dT_K) => `${rounded(dT_K, 1)} K`,
  length: (m) => `${rounded(m * 1000, 0)} mm`,
  mass: (kg) => `${rounded(kg, kg < 10 ? 2 : 1)} kg`,
  duration: (h) => `${rounded(h, h < 10 ? 1 : 0)} h`,
  moment: (at_h) => `${rounded(at_h, 1)} h after the start`,
  number: (value) => String(Number(value.toPrecision(3))).replace('-', '−'),
}
