import type { ReactNode } from 'react'

interface NumberPadProps {
  /** The unit that a reading may be typed in beside the usual one. */
  readonly other: string
  readonly onKey: (key: string) => void
}

/** Keys for hands with flour. */
export function NumberPad({ other, onKey }: NumberPadProps): ReactNode {
  const keys = ['7', '8', '9', 'Clear', '4', '5', '6', '−', '1', '2', '3', null, '0', '.', other]
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset would bring its own frame and legend
    <div className="number-pad" role="group" aria-label="Number pad">
      {keys.map((key) =>
        key === null ? (
          <button key="enter" type="submit" className="pad-enter">
            Enter reading
          </button>
        ) : (
          <button
            key={key}
            type="button"
            aria-label={key === '−' ? 'below zero' : key === '.' ? 'point' : undefined}
            onClick={() => onKey(key)}
          >
            {key}
          </button>
        ),
      )}
    </div>
  )
}
