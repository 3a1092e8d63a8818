import type { ReactNode } from 'react'

import type { Look } from '../../core/materials/material.ts'

/** Patterned edges of stages; they cycle. */
export const STAGE_PATTERNS = 4

/** Paint for a stage's edge and its mark in the list, by its index. */
export const stageFill = (index: number): string => `url(#stage-${index % STAGE_PATTERNS})`

/** Paint for a cut material or for the mould. */
export const lookFill = (look: Look | 'mould'): string => `url(#look-${look})`

/** Paint for the danger zone. */
export const DANGER_FILL = 'url(#danger-hatch)'

/** Paint for what was planned, beside what the readings have made of it. */
export const PLANNED_FILL = 'url(#planned-hatch)'

/** Every hatch and dot pattern, once, for the whole page. */
export function Patterns(): ReactNode {
  return (
    <svg className="patterns" width="0" height="0" aria-hidden="true" focusable="false">
      <defs>
        <StagePatterns />
        <LookPatterns />
        <pattern id="danger-hatch" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V9" stroke="var(--brick)" strokeWidth="1.2" opacity="0.3" />
        </pattern>
        <pattern id="planned-hatch" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
          <path d="M0 0V8" stroke="var(--ink2)" strokeWidth="1" opacity="0.45" />
        </pattern>
      </defs>
    </svg>
  )
}

function StagePatterns(): ReactNode {
  return (
    <>
      <pattern id="stage-0" width="6" height="6" patternUnits="userSpaceOnUse">
        <circle cx="3" cy="3" r="1.1" fill="var(--ink2)" />
      </pattern>
      <pattern id="stage-1" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path d="M1 0V7" stroke="var(--ink2)" strokeWidth="1.2" />
      </pattern>
      <pattern id="stage-2" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path d="M1 0V5M0 1H5" stroke="var(--ink2)" strokeWidth="0.9" />
      </pattern>
      <pattern id="stage-3" width="4" height="4" patternUnits="userSpaceOnUse">
        <path d="M0 2H4" stroke="var(--ink2)" strokeWidth="1.1" />
      </pattern>
    </>
  )
}

interface LookProps {
  readonly name: Look | 'mould'
  readonly width: number
  readonly height: number
  readonly turn?: number
  readonly children?: ReactNode
}

function LookPattern({ name, width, height, turn, children }: LookProps): ReactNode {
  return (
    <pattern
      id={`look-${name}`}
      width={width}
      height={height}
      patternUnits="userSpaceOnUse"
      patternTransform={turn === undefined ? undefined : `rotate(${turn})`}
    >
      <rect width={width} height={height} fill={`var(--${name})`} />
      {children}
    </pattern>
  )
}

function LookPatterns(): ReactNode {
  const dots = (places: readonly (readonly [number, number, number])[], fill: string): ReactNode =>
    places.map(([x, y, r]) => <circle key={`${x} ${y}`} cx={x} cy={y} r={r} fill={fill} />)
  return (
    <>
      <pattern id="look-air" width="16" height="9" patternUnits="userSpaceOnUse">
        <rect width="16" height="9" fill="var(--paper)" />
        <path d="M1 3H6M9 7.5H14" stroke="var(--ink2)" strokeWidth="0.8" />
      </pattern>
      <LookPattern name="cream" width={8} height={8} />
      <LookPattern name="custard" width={67} height={53}>
        {dots(
          [
            [9, 7, 1],
            [31, 16, 0.8],
            [52, 5, 0.9],
            [20, 33, 0.9],
            [44, 38, 1],
            [60, 27, 0.8],
            [6, 46, 0.8],
          ],
          'var(--seed)',
        )}
      </LookPattern>
      <LookPattern name="sponge" width={11} height={9}>
        {dots(
          [
            [2, 2, 0.9],
            [7, 3.4, 0.7],
            [4.6, 6.8, 1],
            [9.4, 7.4, 0.6],
          ],
          'var(--biscuit-line)',
        )}
      </LookPattern>
      <LookPattern name="batter" width={14} height={12}>
        {dots(
          [
            [3, 4, 0.8],
            [10, 9, 0.8],
          ],
          'var(--biscuit-line)',
        )}
      </LookPattern>
      <LookPattern name="biscuit" width={7} height={7}>
        <path d="M0 0H7M0 0V7" stroke="var(--biscuit-line)" strokeWidth="1.3" />
      </LookPattern>
      <LookPattern name="chocolate" width={8} height={8} />
      <LookPattern name="fruit" width={13} height={13}>
        {dots(
          [
            [3, 3, 0.7],
            [9.5, 8.5, 0.7],
          ],
          'var(--paper)',
        )}
      </LookPattern>
      <LookPattern name="gel" width={18} height={12}>
        <path d="M2 3h9M11 9h5M0 9h2" stroke="var(--ink2)" strokeWidth="0.8" opacity="0.6" />
      </LookPattern>
      <LookPattern name="plain" width={9} height={9} turn={-45}>
        <path d="M0 1V8" stroke="var(--ink2)" strokeWidth="0.8" opacity="0.6" />
      </LookPattern>
      <LookPattern name="mould" width={5} height={5} turn={45}>
        <path d="M0 0V5" stroke="var(--ink)" strokeWidth="1" opacity="0.55" />
      </LookPattern>
    </>
  )
}
