import type { ReactNode } from 'react'

import { IconButton } from '../parts/IconButton.tsx'
import { Menu, type MenuItem } from '../parts/Menu.tsx'
import { useSettings } from '../settings.ts'
import { unitsWords } from '../text.ts'

/** Units of temperature, length and mass; what is stored doesn't change. */
export function UnitsMenu(): ReactNode {
  const { settings, change } = useSettings()
  const choice = <K extends 'temperature' | 'length' | 'mass'>(
    key: K,
    values: readonly (typeof settings)[K][],
    names: (value: (typeof settings)[K]) => string,
  ): MenuItem[] =>
    values.map((value, i) => ({
      id: `${key} ${value}`,
      label: names(value),
      checked: settings[key] === value,
      apart: i === 0 && key !== 'temperature',
      onChoose: () => change({ [key]: value }),
    }))
  const items = [
    ...choice('temperature', ['C', 'F'], (value) => `°${value}`),
    ...choice('length', ['mm', 'cm', 'in'], String),
    ...choice('mass', ['kg', 'lb'], String),
  ]
  return (
    <Menu label={`Units: ${unitsWords(settings)}`} className="icon-button units-button" items={items}>
      {unitsWords(settings)}
    </Menu>
  )
}

/** Light or dark; pressed again it follows the system. */
export function ThemeButton(): ReactNode {
  const { settings, change } = useSettings()
  const system = matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light'
  const shown = settings.theme === 'system' ? system : settings.theme
  const other = shown === 'dark' ? 'light' : 'dark'
  return (
    <IconButton
      icon={shown === 'dark' ? 'sun' : 'moon'}
      label={other === 'dark' ? 'Dark' : 'Light'}
      onPress={() => change({ theme: other === system ? 'system' : other })}
    />
  )
}
