declare module 'psychrolib' {
  export const SI: number
  export function SetUnitSystem(system: number): void
  export function GetTWetBulbFromRelHum(T: number, relative: number, pressure: number): number
  export function GetTWetBulbFromHumRatio(T: number, ratio: number, pressure: number): number
  export function GetTDewPointFromRelHum(T: number, relative: number): number
  export function GetMoistAirEnthalpy(T: number, ratio: number): number
}
