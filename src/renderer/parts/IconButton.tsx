import type { ReactNode } from 'react'

import { Icon, type IconName } from '../icons.tsx'

interface IconButtonProps {
  readonly icon: IconName
  readonly label: string
  readonly onPress: () => void
  readonly disabled?: boolean
  readonly pressed?: boolean
}

/** A sign that is pressed; its name is a tooltip too. */
export function IconButton({ icon, label, onPress, disabled = false, pressed }: IconButtonProps): ReactNode {
  return (
    <button
      type="button"
      className="icon-button"
      aria-label={label}
      title={label}
      aria-disabled={disabled || undefined}
      aria-pressed={pressed}
      onClick={disabled ? undefined : onPress}
    >
      <Icon name={icon} />
    </button>
  )
}
