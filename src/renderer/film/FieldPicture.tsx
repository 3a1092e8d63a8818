import { type ReactNode, useLayoutEffect, useMemo, useRef } from 'react'

import type { SectionGrid } from '../../core/forecast-types.ts'
import { BandHatches } from './BandHatches.tsx'
import { inkOn } from './cividis.ts'
import { type ContourLine, contourLines } from './contours.ts'
import { ContourLabels, LitPlace, PlaceSign } from './FieldLabels.tsx'
import { drawField, onScreen, type Placement, placeIn } from './field-drawing.ts'
import { paintField } from './paint-field.ts'
import { extentOf, layerEdges, outlineEdges, type Point, valueNear } from './section-shape.ts'
import { colourOf, type StepScale } from './step-scale.ts'

export interface FieldSign {
  /** m, in the grid's coordinates. */
  readonly at: Point
  readonly words: string
}

interface FieldPictureProps {
  readonly grid: SectionGrid
  /** Values at the nodes. */
  readonly nodes: Float64Array
  readonly scale: StepScale
  /** Values whose lines matter and are drawn in white. */
  readonly matter: readonly number[]
  readonly labelOf: (value: number) => string
  readonly sign: FieldSign | undefined
  /** A place that was asked for, such as that of an answer. */
  readonly lit: Point | undefined
  /** Each step has a hatch of its own beside its colour. */
  readonly hatched: boolean
  /** The sides of a strip are cuts, not faces. */
  readonly openSides: boolean
  readonly width: number
  readonly height: number
  readonly title: string
}

const margin = 4

/** The field of a section to scale: steps on canvas, lines, values and signs as drawing above it. */
export function FieldPicture(props: FieldPictureProps): ReactNode {
  const { grid, nodes, scale, matter, width, height, openSides } = props
  const canvas = useRef<HTMLCanvasElement>(null)
  const placement = useMemo(
    () =>
      placeIn(extentOf(grid), {
        left: margin,
        top: margin,
        width: width - 2 * margin,
        height: height - 2 * margin,
      }),
    [grid, width, height],
  )
  const drawing = useMemo(() => drawField(grid, nodes, scale), [grid, nodes, scale])
  const lines = useMemo(() => {
    const even = drawing.lines.filter(({ value }) => !matter.some((other) => Math.abs(other - value) < 1e-6))
    const heavy = matter.map((value) => ({ value, step: 0, lines: contourLines(grid, nodes, value) }))
    const screen = (all: readonly ContourLine[]): readonly ContourLine[] =>
      all.map((line) => line.map((point) => onScreen(placement, point)))
    return {
      even: even.map((one) => ({ ...one, lines: screen(one.lines) })),
      heavy: heavy.map((one) => ({ ...one, lines: screen(one.lines) })),
    }
  }, [drawing, grid, nodes, matter, placement])
  useLayoutEffect(() => {
    if (canvas.current) paintField(canvas.current, drawing, scale, placement, { width, height })
  }, [drawing, scale, placement, width, height])
  const sign = props.sign && onScreen(placement, props.sign.at)
  return (
    <div className="field-picture" style={{ width, height }}>
      <canvas ref={canvas} style={{ width, height }} />
      <svg width={width} height={height} role="img" aria-label={props.title}>
        {props.hatched && <BandHatches drawing={drawing} scale={scale} placement={placement} />}
        <Edges grid={grid} placement={placement} openSides={openSides} />
        {lines.even.map(({ value, lines: drawn }) => (
          <path key={value} d={pathOf(drawn)} className="contour" stroke={inkOn(colourOf(scale, value))} />
        ))}
        {lines.heavy.map(({ value, lines: drawn }) => (
          <g key={value}>
            <path d={pathOf(drawn)} className="contour-casing" />
            <path d={pathOf(drawn)} className="contour-heavy" />
          </g>
        ))}
        <ContourLabels
          scale={scale}
          labelOf={props.labelOf}
          contours={[...lines.heavy, ...lines.even]}
          sign={sign}
          frame={{ width, height }}
        />
        {props.lit && <LitPlace at={onScreen(placement, props.lit)} />}
        {sign && props.sign && (
          <PlaceSign
            at={sign}
            words={props.sign.words}
            ground={colourOf(scale, valueNear(grid, nodes, props.sign.at))}
            width={width}
          />
        )}
      </svg>
    </div>
  )
}

const pathOf = (lines: readonly ContourLine[]): string =>
  lines
    .map((line) =>
      line.map((point, index) => `${index === 0 ? 'M' : 'L'}${point.x.toFixed(1)} ${point.y.toFixed(1)}`).join(''),
    )
    .join('')

interface EdgesProps {
  readonly grid: SectionGrid
  readonly placement: Placement
  readonly openSides: boolean
}

/** The outline, and thinner the lines between layers. */
function Edges({ grid, placement, openSides }: EdgesProps): ReactNode {
  const { outline, layers } = useMemo(() => {
    const draw = (edges: ReturnType<typeof layerEdges>): string =>
      edges
        .map(({ from, to }) => {
          const [a, b] = [onScreen(placement, from), onScreen(placement, to)]
          return `M${a.x.toFixed(1)} ${a.y.toFixed(1)}L${b.x.toFixed(1)} ${b.y.toFixed(1)}`
        })
        .join('')
    const rim = outlineEdges(grid).filter(({ from, to }) => !openSides || Math.abs(from.x - to.x) > 1e-9)
    return { outline: draw(rim), layers: draw(layerEdges(grid)) }
  }, [grid, placement, openSides])
  return (
    <>
      <path d={layers} className="layer-edge" />
      <path d={outline} className="section-outline" />
    </>
  )
}
