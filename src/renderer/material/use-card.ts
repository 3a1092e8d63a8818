import { useMemo, useRef } from 'react'

import { findCard, type MaterialCard } from '../../core/materials/card.ts'
import { findMaterialFaults } from '../../core/materials/material-from-plan.ts'
import type { PlanMaterial } from '../../core/plan/schema/plan.ts'

/** A card, and whether it is that of an earlier state, because what is typed now can't be used. */
export interface ShownCard {
  readonly card: MaterialCard
  readonly stale: boolean
}

/** The card of a material; the last good one while its recipe has a fault; null before there is one. */
export function useCard(id: string, own: PlanMaterial | undefined): ShownCard | null {
  const last = useRef<{ readonly id: string; readonly card: MaterialCard } | null>(null)
  const found = useMemo(() => {
    if (own !== undefined && findMaterialFaults(own, '').length > 0) return null
    return findCard(id, own) ?? null
  }, [id, own])
  if (found !== null) {
    last.current = { id, card: found }
    return { card: found, stale: false }
  }
  return last.current === null || last.current.id !== id ? null : { card: last.current.card, stale: true }
}
