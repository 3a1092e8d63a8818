import type { Change } from '../change.ts'

const METALS: readonly string[] = ['stainless', 'aluminium', 'steel', 'copper']

/** A mould of thin steel in place of plastic, silicone, wood or board. */
export const metalMould: Change = {
  id: 'metal-mould',
  title: 'a mould of 1 mm stainless steel',
  trouble: 'another mould; it may need warming to turn out of',
  edit: (plan) => {
    const walls = plan.piece.mould ?? []
    if (!walls.some(({ material }) => !METALS.includes(material))) return undefined
    const metal = walls.map((wall) =>
      METALS.includes(wall.material) ? wall : { ...wall, material: 'stainless', thickness_mm: 1 },
    )
    return { ...plan, piece: { ...plan.piece, mould: metal } }
  },
}
