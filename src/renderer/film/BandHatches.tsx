import type { ReactNode } from 'react'

import { inkOn } from './cividis.ts'
import type { Region } from './contours.ts'
import { type FieldDrawing, onScreen, type Placement } from './field-drawing.ts'
import { hatchOf } from './hatches.ts'
import type { StepScale } from './step-scale.ts'

interface HatchPatternsProps {
  readonly scale: StepScale
  /** Begins the names of the patterns, which must be alone in the page. */
  readonly name: string
}

const idOf = (name: string, step: number): string => `${name}-hatch-${step}`

/** How a step is to be filled. */
export const hatchFill = (name: string, step: number): string => `url(#${idOf(name, step)})`

/** The hatch of every step, black or white, whichever reads on its colour. */
export function HatchPatterns({ scale, name }: HatchPatternsProps): ReactNode {
  return (
    <defs>
      {scale.colours.map((colour, step) => {
        const { size, lines, width } = hatchOf(step)
        return (
          <pattern
            key={scale.edges[step]}
            id={idOf(name, step)}
            width={size}
            height={size}
            patternUnits="userSpaceOnUse"
          >
            <path d={lines} stroke={inkOn(colour)} strokeWidth={width} strokeLinecap="round" fill="none" />
          </pattern>
        )
      })}
    </defs>
  )
}

interface BandHatchesProps {
  readonly drawing: FieldDrawing
  readonly scale: StepScale
  readonly placement: Placement
}

const NAME = 'field'

/** Hatches over the filled steps of a field, each in its own band alone. */
export function BandHatches({ drawing, scale, placement }: BandHatchesProps): ReactNode {
  const { fills, empty } = drawing
  const path = (regions: readonly Region[]): string => regions.map((region) => regionPath(region, placement)).join('')
  const whole = fills[0]?.region ?? []
  return (
    <>
      <HatchPatterns scale={scale} name={NAME} />
      <clipPath id={`${NAME}-there`}>
        <path d={path([whole, ...empty.map((ring) => [ring])])} clipRule="evenodd" />
      </clipPath>
      <g clipPath={`url(#${NAME}-there)`} className="band-hatches">
        {fills.map(({ step, region }, index) => {
          // What lies above the band's upper edge is a part of it: even-odd leaves it out.
          const d = path([region, fills[index + 1]?.region ?? []])
          return d === '' ? null : (
            <path
              key={step}
              d={d}
              fillRule="evenodd"
              fill={hatchFill(NAME, step)}
              className="band-hatch"
              data-step={step}
              data-hatch={hatchOf(step).name}
            />
          )
        })}
      </g>
    </>
  )
}

function regionPath(region: Region, placement: Placement): string {
  return region
    .map((ring) => {
      const points = ring.map((point) => {
        const { x, y } = onScreen(placement, point)
        return `${x.toFixed(1)} ${y.toFixed(1)}`
      })
      return points.length === 0 ? '' : `M${points.join('L')}Z`
    })
    .join('')
}
