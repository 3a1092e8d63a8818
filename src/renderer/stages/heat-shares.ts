import type { StageReport } from '../../core/forecast-types.ts'

export type HeatWay = keyof StageReport['heat_J']

/** One way that heat takes: its share of all that moved, and whether it goes into the piece. */
export interface HeatShare {
  readonly way: HeatWay
  readonly share: number
  readonly into: boolean
}

/** What each way is called. */
export const wayWords: Readonly<Record<HeatWay, string>> = {
  convection: 'convection',
  radiation: 'radiation',
  evaporation: 'evaporation',
  contact: 'contact',
  walls: 'mould, boards and lids',
}

/** Less than this share is not drawn. */
const LEAST = 0.005

/** The ways that heat takes in a stage, the greatest first; heat in and heat out count alike. */
export function heatShares({ heat_J }: StageReport): HeatShare[] {
  const ways = Object.entries(heat_J) as [HeatWay, number][]
  const moved = ways.reduce((sum, [, heat]) => sum + Math.abs(heat), 0)
  return ways
    .map(([way, heat]) => ({ way, share: moved === 0 ? 0 : Math.abs(heat) / moved, into: heat > 0 }))
    .filter(({ share }) => share >= LEAST)
    .sort((a, b) => b.share - a.share)
}
