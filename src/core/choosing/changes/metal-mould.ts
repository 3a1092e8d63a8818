import { message } from '../../messages.ts'
import type { Change } from '../change.ts'

const METALS: readonly string[] = ['stainless', 'aluminium', 'steel', 'copper']

/** A mould of thin steel in place of plastic, silicone, wood or board. */
export const metalMould: Change = {
  id: 'metal-mould',
  title: message('change-metal-mould'),
  trouble: message('trouble-metal-mould'),
  edit: (plan) => {
    const walls = plan.piece.mould ?? []
    if (!walls.some(({ material }) => !METALS.includes(material))) return undefined
    const metal = walls.map((wall) =>
      METALS.includes(wall.material) ? wall : { ...wall, material: 'stainless', thickness_mm: 1 },
    )
    return { ...plan, piece: { ...plan.piece, mould: metal } }
  },
}
