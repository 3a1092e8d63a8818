import { type ReactNode, useEffect, useId, useRef } from 'react'

import { evidenceCommand, keyHint, listedCommands } from '../commands.ts'
import { Icon } from '../icons.tsx'
import { useHelp } from './help-store.ts'
import { findHelp, helpGroups, type InputHelp } from './inputs.ts'
import './help.css'

/** Help within the program: the field that was asked about, first steps, every input, keys. */
export function Help(): ReactNode {
  const open = useHelp((state) => state.open)
  return open ? <HelpPage /> : null
}

const steps: readonly string[] = [
  'Choose an example like your piece, or New plan, and give it its shape and sizes.',
  'Say of what each layer is made, how thick it is and how warm it goes in. Press a layer in the drawing to drag its edge.',
  'Put the stages in their order: where the piece stands, how long, what is done at the start.',
  'Ask a question: cooled, frozen, baked, set, ready to unmould, to coat, to cut. The answer comes by itself.',
  'Print the sheet. On the day, type what your probe shows and see what has changed.',
]

const drawingKeys: readonly (readonly [string, string])[] = [
  ['Arrows on the edge of a layer', '1 mm, with Shift 10 mm'],
  ['Arrows on a probe', '1 mm, with Shift 10 mm'],
  ['Arrows on the ribbon', 'choose a stage; with Alt move it'],
  ['Insert, Delete, Enter on the ribbon', 'once more, take away, open'],
  ['Arrows on the moment', 'a step, with Shift or Page keys a tenth'],
]

function HelpPage(): ReactNode {
  const id = useId()
  const { key, close } = useHelp()
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => dialog.current?.showModal(), [])
  const asked = key === null ? undefined : findHelp(key)
  return (
    <dialog ref={dialog} className="help" aria-labelledby={`${id}-title`} onClose={close}>
      <div className="help-head">
        <h2 id={`${id}-title`}>Help</h2>
        <button
          type="button"
          className="icon-button"
          aria-label="Close the help"
          onClick={() => dialog.current?.close()}
        >
          <Icon name="close" />
        </button>
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys */}
      <section className="help-body" tabIndex={0} aria-label="Help, to be scrolled">
        {asked === undefined ? null : (
          <section className="help-asked" aria-label="The field you are in">
            <InputEntry input={asked} />
          </section>
        )}
        <h3>First steps</h3>
        <ol>
          {steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
        <p>
          Numbers take any unit that you type: 4 1/2 in, 41 F, 90 min, 2 d, 1 lb. F1 in a field tells of that field.
        </p>
        <p>Thickset computes; it does not measure. Local codes, a calibrated probe and licensed practice come first.</p>
        <p>
          <button
            type="button"
            className="link"
            onClick={() => {
              dialog.current?.close()
              evidenceCommand.run()
            }}
          >
            {evidenceCommand.label()}
          </button>
        </p>
        {helpGroups.map(({ title, inputs }) => (
          <section key={title} aria-label={title}>
            <h3>{title}</h3>
            {inputs.map((input) => (
              <InputEntry key={input.name} input={input} />
            ))}
          </section>
        ))}
        <h3>Keys</h3>
        <table className="help-keys">
          <tbody>
            {listedCommands()
              .filter((command) => keyHint(command) !== '')
              .map((command) => (
                <tr key={command.id}>
                  <th scope="row">{keyHint(command)}</th>
                  <td>{command.label()}</td>
                </tr>
              ))}
            {drawingKeys.map(([keys, does]) => (
              <tr key={keys}>
                <th scope="row">{keys}</th>
                <td>{does}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </dialog>
  )
}

function InputEntry({ input }: { readonly input: InputHelp }): ReactNode {
  return (
    <p className="help-input">
      <b>{input.name}</b> {input.says} <span className="second">Usual: {input.usual}</span>
    </p>
  )
}
