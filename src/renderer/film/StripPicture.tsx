import { memo, type ReactNode, useLayoutEffect, useMemo, useRef } from 'react'

import type { SectionFilm } from '../../core/forecast-types.ts'
import { fillSteps, placeIn } from './field-drawing.ts'
import { frameAt } from './film-frame.ts'
import { nodeField, nodeWeights } from './node-field.ts'
import { paintField } from './paint-field.ts'
import { drawnGrid, extentOf } from './section-shape.ts'
import { stripScale } from './step-scale.ts'

interface StripPictureProps {
  readonly films: readonly SectionFilm[]
  readonly at_h: number
  readonly flat: boolean
}

const size = { width: 42, height: 36 }

/** The section at one moment, small, on the strip's one scale. */
export const StripPicture = memo(function StripPicture({ films, at_h, flat }: StripPictureProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null)
  const drawn = useMemo(() => {
    const frame = frameAt(films, at_h)
    if (!frame) return undefined
    const grid = drawnGrid(frame.film.grid, flat)
    const nodes = nodeField(nodeWeights(grid), frame.T_C)
    const placement = placeIn(extentOf(grid), { left: 1, top: 1, width: size.width - 2, height: size.height - 2 })
    return { steps: fillSteps(grid, nodes, stripScale), placement }
  }, [films, at_h, flat])
  useLayoutEffect(() => {
    if (canvas.current && drawn) paintField(canvas.current, drawn.steps, stripScale, drawn.placement, size)
  }, [drawn])
  return <canvas ref={canvas} className="strip-picture" style={size} />
})
