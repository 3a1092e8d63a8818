import { openEvidence } from './evidence/evidence-store.ts'
import { useForecast } from './forecast-client.ts'
import { cancelForecast } from './forecasting.ts'
import { openHelp } from './help/help-store.ts'
import { redoName, undoName } from './history.ts'
import { openMeasured } from './measured/measured-store.ts'
import { closePlan, openPlan, savePlan, savePlanAs, startNew, withTelling } from './plan-files.ts'
import { usePlan } from './plan-store.ts'
import { useProgram } from './program.ts'
import { printSheet } from './sheet/print-sheet.ts'

/** Something that can be done by key, by menu or by button. */
export interface Command {
  readonly id: string
  /** In words; undo and redo name what they take back. */
  readonly label: () => string
  /** Keys in the order of preference; `Mod` is Ctrl, on a Mac Command. */
  readonly keys: readonly string[]
  readonly enabled: () => boolean
  readonly run: () => void
}

const history = () => usePlan.getState().history
const isOpen = (): boolean => history() !== null
const always = (): boolean => true

const start = (work: Promise<unknown>): void => {
  // what goes wrong has been told to the person already
  work.catch(() => undefined)
}

const named = (word: string, name: string | null): string => (name === null ? word : `${word} ${name}`)

export const undoCommand: Command = {
  id: 'undo',
  label: () =>
    named('Undo', history() === null ? null : undoName(history() as NonNullable<ReturnType<typeof history>>)),
  keys: ['Mod+Z'],
  enabled: () => (history()?.past.length ?? 0) > 0,
  run: () => usePlan.getState().undo(),
}

export const redoCommand: Command = {
  id: 'redo',
  label: () =>
    named('Redo', history() === null ? null : redoName(history() as NonNullable<ReturnType<typeof history>>)),
  keys: ['Mod+Shift+Z', 'Mod+Y'],
  enabled: () => (history()?.future.length ?? 0) > 0,
  run: () => usePlan.getState().redo(),
}

export const cancelCommand: Command = {
  id: 'cancel',
  label: () => 'Stop computing',
  keys: ['Escape'],
  enabled: () => useForecast.getState().running !== null,
  run: cancelForecast,
}

/** What stands in the menu, in its order. */
export const fileCommands: readonly Command[] = [
  { id: 'new', label: () => 'New plan', keys: ['Mod+N', 'Mod+Alt+N'], enabled: always, run: () => start(startNew()) },
  { id: 'open', label: () => 'Open', keys: ['Mod+O'], enabled: always, run: () => start(openPlan()) },
  {
    id: 'save',
    label: () => 'Save',
    keys: ['Mod+S'],
    enabled: isOpen,
    run: () =>
      start(
        withTelling(async () => {
          await savePlan()
        }),
      ),
  },
  {
    id: 'save-as',
    label: () => 'Save as',
    keys: ['Mod+Shift+S'],
    enabled: isOpen,
    run: () =>
      start(
        withTelling(async () => {
          await savePlanAs()
        }),
      ),
  },
  { id: 'print', label: () => 'Print the sheet', keys: ['Mod+P'], enabled: isOpen, run: () => start(printSheet()) },
  { id: 'close', label: () => 'Close the plan', keys: [], enabled: isOpen, run: () => start(closePlan()) },
]

export const helpCommand: Command = { id: 'help', label: () => 'Help', keys: ['F1'], enabled: always, run: openHelp }

/** What fits have found, for every plan. */
export const measuredCommand: Command = {
  id: 'measured',
  label: () => 'What was measured',
  keys: [],
  enabled: always,
  run: openMeasured,
}

export const evidenceCommand: Command = {
  id: 'evidence',
  label: () => 'How far to trust this',
  keys: [],
  enabled: always,
  run: openEvidence,
}

/** What stands below the files in the menu. */
export const tellingCommands: readonly Command[] = [measuredCommand, helpCommand, evidenceCommand]

const commands: readonly Command[] = [...fileCommands, ...tellingCommands, undoCommand, redoCommand, cancelCommand]

/** Every command, for a list of keys. */
export const listedCommands = (): readonly Command[] => commands

/** Runs the command of a key, if there is one that can be run now. */
export function runKey(event: KeyboardEvent): void {
  if (document.querySelector('dialog[open]') !== null) return
  const pressed = keyWords(event)
  const command = commands.find(({ keys }) => keys.includes(pressed))
  if (command === undefined) return
  // a text field's own undo comes first while something stands in it that isn't taken yet
  const field = event.target instanceof HTMLInputElement ? event.target : null
  if ((command === undoCommand || command === redoCommand) && field?.dataset.pending === 'true') return
  if (command !== cancelCommand) event.preventDefault()
  if (command.enabled()) command.run()
}

function keyWords({ key, ctrlKey, metaKey, shiftKey, altKey }: KeyboardEvent): string {
  const mod = useProgram.getState().keys === 'mac' ? metaKey : ctrlKey
  const name = key.length === 1 ? key.toUpperCase() : key
  return [mod ? 'Mod' : '', altKey ? 'Alt' : '', shiftKey ? 'Shift' : '', name].filter((part) => part !== '').join('+')
}

/** A command's keys for the eye, "Ctrl+S"; in a browser the ones that it leaves to the page. */
export function keyHint({ keys }: Command): string {
  const { program, keys: system } = useProgram.getState()
  return (keys.at(program === 'browser' ? -1 : 0) ?? '').replace('Mod', system === 'mac' ? 'Cmd' : 'Ctrl')
}
