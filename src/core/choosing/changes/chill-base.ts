import { message } from '../../messages.ts'
import type { Change } from '../change.ts'
import { bakes, mainFill } from './parts.ts'

const CHILLED_C = 4

/** Base and lining cold before the rest comes on them. */
export const chillBase: Change = {
  id: 'chill-base',
  title: message('change-chill-base', { chilled_C: CHILLED_C }),
  trouble: message('trouble-chill-base'),
  edit: (plan) => {
    const main = mainFill(plan)
    const warm = (layer: { readonly start_C: number }): boolean => layer.start_C > CHILLED_C + 2
    const { fill, lining } = plan.piece
    const others = fill.some((layer, index) => index !== main && warm(layer)) || (lining ?? []).some(warm)
    if (!others || bakes(plan)) return undefined
    const chilled = <Layer extends { readonly start_C: number }>(layer: Layer): Layer =>
      warm(layer) ? { ...layer, start_C: CHILLED_C } : layer
    return {
      ...plan,
      piece: {
        ...plan.piece,
        fill: fill.map((layer, index) => (index === main ? layer : chilled(layer))),
        ...(lining === undefined ? {} : { lining: lining.map(chilled) }),
      },
    }
  },
}
