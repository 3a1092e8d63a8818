import type { ReactNode } from 'react'

import { fileCommands, keyHint, redoCommand, tellingCommands, undoCommand } from '../commands.ts'
import { Icon, Mark } from '../icons.tsx'
import { IconButton } from '../parts/IconButton.tsx'
import { Menu, type MenuItem } from '../parts/Menu.tsx'
import { TextField } from '../parts/TextField.tsx'
import { isUnsaved, usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { ForecastCell } from './ForecastCell.tsx'
import { otherTheme, ThemeButton, UnitsMenu, unitItems } from './SettingsTools.tsx'
import { ViewSwitch } from './ViewSwitch.tsx'

/** The title block: what plan this is, when it starts, where its forecast stands, and the tools. */
export function Header(): ReactNode {
  const open = usePlan(({ history }) => history !== null)
  return (
    <header className="title-block">
      <div className="title-mark">
        <Mark />
        <span>Thickset</span>
      </div>
      {open ? <PlanCells /> : null}
      <div className="title-space" />
      <div className="title-tools">
        {open ? <UndoTools /> : null}
        <UnitsMenu />
        <ThemeButton />
        <FileMenu />
      </div>
    </header>
  )
}

function PlanCells(): ReactNode {
  const unsaved = usePlan(isUnsaved)
  return (
    <>
      <div className="title-cell title-plan">
        <span className="title-label">
          Plan
          {unsaved ? <span className="unsaved-dot" role="img" aria-label="not saved" title="Not saved" /> : null}
        </span>
        <TextField path="title" label="Name of the plan" change="name" look="bare" longest={200} empty="kept" />
      </div>
      <div className="title-cell title-start">
        <span className="title-label">Starts</span>
        <TextField path="startsAt" label="Start of the plan" change="start" look="bare" type="datetime-local" />
      </div>
      <ForecastCell />
      <ViewSwitch />
    </>
  )
}

function UndoTools(): ReactNode {
  // the labels name the step, so they follow the history
  usePlan(({ history }) => history)
  return (
    <>
      <IconButton icon="undo" label={undoCommand.label()} disabled={!undoCommand.enabled()} onPress={undoCommand.run} />
      <IconButton icon="redo" label={redoCommand.label()} disabled={!redoCommand.enabled()} onPress={redoCommand.run} />
    </>
  )
}

function FileMenu(): ReactNode {
  usePlan(({ history }) => history === null)
  const { settings, change } = useSettings()
  const { dark, next } = otherTheme(settings)
  const files: MenuItem[] = [...fileCommands, ...tellingCommands].map((command) => ({
    id: command.id,
    label: command.label(),
    hint: keyHint(command),
    disabled: !command.enabled(),
    onChoose: command.run,
  }))
  const theme: MenuItem = {
    id: 'theme',
    label: dark ? 'Light' : 'Dark',
    apart: true,
    onChoose: () => change({ theme: next }),
  }
  const narrow = [theme, ...unitItems(settings, change)].map((item) => ({ ...item, narrow: true }))
  return (
    <Menu label="Menu" items={[...files, ...narrow]}>
      <Icon name="more" />
    </Menu>
  )
}
