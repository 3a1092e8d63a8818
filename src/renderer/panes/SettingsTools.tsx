import type { ReactNode } from 'react'

import type { Settings } from '../../main/contract.ts'
import { IconButton } from '../parts/IconButton.tsx'
import { Menu, type MenuItem } from '../parts/Menu.tsx'
import { useSettings } from '../settings.ts'
import { unitsWords } from '../text.ts'

type Change = ReturnType<typeof useSettings.getState>['change']

/** One item a unit; what is stored doesn't change. */
export function unitItems(settings: Settings, change: Change): MenuItem[] {
  const choice = <K extends 'temperature' | 'length' | 'mass' | 'clock'>(
    key: K,
    values: readonly Settings[K][],
    names: (value: Settings[K]) => string,
  ): MenuItem[] =>
    values.map((value, i) => ({
      id: `${key} ${value}`,
      label: names(value),
      checked: settings[key] === value,
      apart: i === 0,
      onChoose: () => change({ [key]: value }),
    }))
  return [
    ...choice('temperature', ['C', 'F'], (value) => `°${value}`),
    ...choice('length', ['mm', 'cm', 'in'], String),
    ...choice('mass', ['kg', 'lb'], String),
    ...choice('clock', ['24', '12'], (value) => `${value}-hour clock`),
  ]
}

/** What is shown now, and what pressing would show: the system's own side needs no setting. */
export function otherTheme(settings: Settings): { readonly dark: boolean; readonly next: Settings['theme'] } {
  const system = matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light'
  const dark = (settings.theme === 'system' ? system : settings.theme) === 'dark'
  const other = dark ? 'light' : 'dark'
  return { dark, next: other === system ? 'system' : other }
}

export function UnitsMenu(): ReactNode {
  const { settings, change } = useSettings()
  const [first, ...items] = unitItems(settings, change)
  return (
    <Menu
      label={`Units: ${unitsWords(settings)}`}
      className="icon-button units-button"
      items={first === undefined ? items : [{ ...first, apart: false }, ...items]}
    >
      {unitsWords(settings)}
    </Menu>
  )
}

/** Light or dark; pressed again it follows the system. */
export function ThemeButton(): ReactNode {
  const { settings, change } = useSettings()
  const { dark, next } = otherTheme(settings)
  return (
    <span className="theme-button">
      <IconButton
        icon={dark ? 'sun' : 'moon'}
        label={dark ? 'Light' : 'Dark'}
        onPress={() => change({ theme: next })}
      />
    </span>
  )
}
