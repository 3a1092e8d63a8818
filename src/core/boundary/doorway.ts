import { GRAVITY } from './air.ts'

/* What an open door costs. Densities kg/m³, enthalpies J per kg of moist air. */

/** Air on one side of a door. */
export interface DoorAir {
  readonly rho: number
  readonly enthalpy: number
}

/**
 * Heat that enters a cold room through its open doorway, W: 0.221 A (h_w − h_c) rho_c √((1 − rho_w/rho_c) g H) F_m, with
 * F_m = (2/(1 + (rho_c/rho_w)^(1/3)))^1.5.
 * @param doorway  width and height, m
 * @param flow  0.8 where the air differs by more than 11 K, else 1.1
 * @param blocked  0 open, 0.5 air curtain, 0.9 strips
 * Valid: fully open, flow established. Source: `gosney-olama-1975` as in the ASHRAE Handbook - Refrigeration.
 */
export function doorwayHeat(
  doorway: { readonly width: number; readonly height: number },
  warm: DoorAir,
  cold: DoorAir,
  flow = 0.8,
  blocked = 0,
): number {
  const area = doorway.width * doorway.height
  const density = (2 / (1 + Math.cbrt(cold.rho / warm.rho))) ** 1.5
  const speed = Math.sqrt(Math.max(0, 1 - warm.rho / cold.rho) * GRAVITY * doorway.height)
  return 0.221 * area * (warm.enthalpy - cold.enthalpy) * cold.rho * speed * density * flow * (1 - blocked)
}

/**
 * Heat that one opening lets into a cabinet, J: the doorway's flow until the cold air has gone once, then what the
 * liner warms the new air back with.
 * @param exchanged  J of one change of air
 * @param liner  W that the liner gives to air of the room
 * @param duration  s
 */
export function openingHeat(doorway: number, exchanged: number, liner: number, duration: number): number {
  return Math.min(doorway * duration, exchanged + liner * duration)
}
