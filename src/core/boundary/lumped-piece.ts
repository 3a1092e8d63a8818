import {
  type Appliance,
  type ApplianceState,
  applianceStep,
  longestApplianceStep,
  type StepHeat,
  settledAir,
} from './appliance.ts'

/* A piece of one temperature in an appliance: for closed forms, and for a first look at what a load does to a cabinet. */

export interface LumpedPiece {
  /** J/K */
  readonly heat: number
  /** Film coefficient times area, W/K. */
  readonly film: number
  readonly start_C: number
}

/** One moment of a lumped course. */
export interface LumpedMoment {
  /** s */
  readonly t: number
  readonly piece_C: number
  readonly appliance: ApplianceState
}

/**
 * Course of a lumped piece in an appliance that was at rest, in steps of `dt` s (second order in it).
 * @param visit  told every moment, with the heat of the step that led there; returns true to stop
 */
export function runLumped(
  appliance: Appliance,
  start: ApplianceState,
  piece: LumpedPiece,
  duration: number,
  dt: number,
  visit: (moment: LumpedMoment, heat: StepHeat | undefined) => boolean,
): void {
  const line = (T_C: number) => ({ conductance: piece.film, given: piece.film * T_C })
  /** Air that holds nothing jumps when a load comes or the machine switches. */
  const settle = (state: ApplianceState, T_C: number, t: number): ApplianceState => {
    if (appliance.heat > 0) return state
    const { air_C, machine } = settledAir(appliance, state, line(T_C), t)
    return { ...state, air_C, machine }
  }
  let T = piece.start_C
  let state = settle(start, T, 0)
  let t = 0
  if (visit({ t, piece_C: T, appliance: state }, undefined)) return
  while (t < duration - 1e-9) {
    const step = Math.min(dt, duration - t, longestApplianceStep(appliance, state))
    let end = T
    let air = state.air_C
    let made = { after: state, heat: { machine: 0, room: 0, fan: 0, piece: 0, stored: 0 } }
    // Piece and air at the end of the step depend on each other: a few passes settle both.
    for (let pass = 0; pass < 60; pass++) {
      const pull = (piece.film * step) / (2 * piece.heat)
      const T_end = (T + pull * (state.air_C + air - T)) / (1 + pull)
      made = applianceStep(
        appliance,
        state,
        { toAir: piece.heat * (T - T_end), radiated: 0, after: line(T_end) },
        t,
        step,
      )
      const moved = Math.abs(made.after.air_C - air) + Math.abs(T_end - end)
      end = T_end
      air = made.after.air_C
      if (moved < 1e-11) break
    }
    T = end
    t += step
    state = settle(made.after, T, t)
    if (visit({ t, piece_C: T, appliance: state }, made.heat)) return
  }
}
