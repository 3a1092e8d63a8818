import type { Ingredient } from '../../core/materials/ingredient.ts'
import type { AmountKind } from '../edits/amounts.ts'
import { massRange, piecesRange, pieceWeightRange, volumeRange } from '../parts/ranges.ts'
import { readTyped, type Typed } from '../typed.ts'
import { mass, pieces, pieceWeight, shownUnit, type Units, volume } from '../units.ts'

/** An amount that was typed, told by weight, volume or number. */
export type TypedAmount =
  | { readonly ok: true; readonly kind: AmountKind; readonly value: number }
  | { readonly ok: false; readonly problem: string }

function readAs(text: string, kind: AmountKind, units: Units): Typed {
  if (kind === 'mass') return readTyped(text, mass, shownUnit(mass, units), massRange)
  if (kind === 'volume') return readTyped(text, volume, shownUnit(volume, units), volumeRange)
  return readTyped(text, pieces, shownUnit(pieces, units), piecesRange)
}

/** Reads an amount; a weight or a volume that is typed with its unit is one, whatever was chosen. */
export function readAmount(text: string, kind: AmountKind, ingredient: Ingredient, units: Units): TypedAmount {
  const asked = readAs(text, kind, units)
  if (asked.ok) return { ok: true, kind, value: asked.value }
  const others = ['mass', ...(ingredient.bulk_kg_m3 === undefined ? [] : ['volume'])].filter((other) => other !== kind)
  for (const other of others) {
    const read = readAs(text, other, units)
    if (read.ok) return { ok: true, kind: other, value: read.value }
  }
  return asked
}

/** Reads the weight of one piece, g. */
export const readWeight = (text: string, units: Units): Typed =>
  readTyped(text, pieceWeight, shownUnit(pieceWeight, units), pieceWeightRange)
