/** Density of frost as it grows, kg/m³: 650 exp(0.227 T). Valid: −18 to −3 °C. Source: `hayashi-1977` (from memory). */
export function frostDensity(T_C: number): number {
  return 650 * Math.exp(0.227 * T_C)
}

/** Conductivity of frost, W/(m K): 0.001202 rho^0.963. Source: `sanders-1974` (from memory). */
export function frostConductivity(rho: number): number {
  return 0.001202 * rho ** 0.963
}
