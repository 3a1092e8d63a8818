import type { ReactNode } from 'react'

import { curveStyle, markerPaths, probeNumber } from './curve-style.ts'

interface CurveSampleProps {
  readonly name: string
  readonly keys: readonly string[]
  readonly length: number
}

/** A piece of a curve as it is drawn, for lists. */
export function CurveSample({ name, keys, length }: CurveSampleProps): ReactNode {
  const style = curveStyle(name, probeNumber(keys, name))
  return (
    <svg className="curve-sample" width={length} height="12" aria-hidden="true">
      <path
        d={`M0 6H${length}`}
        fill="none"
        stroke={style.colour}
        strokeWidth={style.width}
        strokeDasharray={style.dash}
      />
      {style.marker && (
        <path transform={`translate(${length / 2} 6)`} d={markerPaths[style.marker]} className="probe-marker" />
      )}
    </svg>
  )
}
