import { type ReactNode, useCallback, useEffect, useMemo, useState } from 'react'

import type { Place } from '../../core/geometry/body.ts'
import { shapeTitles } from '../../core/geometry/shapes/index.ts'
import { materialTitle } from '../catalog.ts'
import { MOST_PROBES, type Spot } from '../edits/probes.ts'
import { useWidth } from '../parts/use-width.ts'
import { useOpenPlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { length, shownQuantity, shownUnit } from '../units.ts'
import { useView } from '../view-store.ts'
import { Balloons } from './Balloons.tsx'
import { CutLayers } from './CutLayers.tsx'
import { DimensionFields } from './DimensionFields.tsx'
import { Dimensions } from './Dimensions.tsx'
import { drawPiece, spotOnPaper } from './drawing.ts'
import { EdgeGrip } from './EdgeGrip.tsx'
import type { Paper } from './outline.ts'
import { PlaceSigns } from './PlaceSigns.tsx'
import { ProbeHandles } from './ProbeHandles.tsx'
import { ScaleAndSide } from './ScaleAndSide.tsx'
import { SpotChip } from './SpotChip.tsx'

/** Tallest that the piece itself is drawn, px. */
const TALLEST = 250

interface SectionDrawingProps {
  /** The slowest place of the last forecast, where there is one. */
  readonly core: Place | null
}

/** The piece cut in half, to scale: layers, numbers that are fields, and the edge that can be dragged. */
export function SectionDrawing({ core }: SectionDrawingProps): ReactNode {
  const plan = useOpenPlan()
  const units = useSettings(({ settings }) => settings)
  const chosen = useView(({ layer }) => layer)
  const lit = useView(({ place }) => place)
  const [frame, width] = useWidth<HTMLDivElement>(344)
  const [hold, setHold] = useState<Paper | undefined>(undefined)
  const [spot, setSpot] = useState<Spot | null>(null)
  const forgetSpot = useCallback(() => setSpot(null), [])
  const { shape } = plan.piece
  // a spot of another shape is none of this one
  // biome-ignore lint/correctness/useExhaustiveDependencies: it goes with the shape that it was pressed on
  useEffect(forgetSpot, [shape, forgetSpot])
  const drawing = useMemo(
    () => drawPiece(plan, { width, tallest: TALLEST, chosen, lengthUnit: units.length, hold }),
    [plan, width, chosen, units.length, hold],
  )
  const thicker = drawing.areas.filter((area) => area.thicker).toSorted((a, b) => a.number - b.number)
  const probes = plan.probes ?? []
  const unit = shownUnit(length, units)
  const size = `${shownQuantity(drawing.size.height, unit)} high`
  const layers = drawing.areas.map(({ number, material }) => `${number} ${materialTitle(plan, material)}`)
  const words = `Section of the ${shapeTitles[plan.piece.shape.kind].toLowerCase()}, ${size}: ${layers.join(', ')}`

  const press = (at: { readonly x: number; readonly y: number }): void => {
    const box = frame.current?.getBoundingClientRect()
    if (box !== undefined && probes.length < MOST_PROBES)
      setSpot(spotOnPaper(drawing, { x: at.x - box.left, y: at.y - box.top }))
  }

  return (
    <figure className="section-drawing" ref={frame} style={{ height: drawing.height }}>
      <svg width={drawing.width} height={drawing.height} role="img" aria-label={words}>
        <CutLayers drawing={drawing} plan={plan} chosen={chosen} onPress={press} />
        {drawing.centre === null ? null : (
          <path className="centre-line" d={`M${drawing.centre.x} ${drawing.centre.top}V${drawing.centre.bottom}`} />
        )}
        <Dimensions drawing={drawing} unit={unit} />
        <PlaceSigns drawing={drawing} core={core} lit={lit} probes={probes} />
        <ScaleAndSide drawing={drawing} />
        {thicker.length === 0 ? null : (
          <text className="drawn-thicker" x={drawing.bar.at.x} y={drawing.bar.at.y + 22}>
            {thicker.map(({ number }) => number).join(', ')} drawn thicker
          </text>
        )}
      </svg>
      <Balloons drawing={drawing} plan={plan} chosen={chosen} />
      <DimensionFields drawing={drawing} />
      <ProbeHandles drawing={drawing} probes={probes} />
      {spot === null ? null : <SpotChip drawing={drawing} spot={spot} onDone={forgetSpot} />}
      {drawing.grip === null ? null : (
        <EdgeGrip grip={drawing.grip} onHold={(held) => setHold(held ? drawing.paper : undefined)} />
      )}
    </figure>
  )
}
