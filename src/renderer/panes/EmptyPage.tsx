import { type ReactNode, useEffect, useRef, useState } from 'react'

import type { ListedPlan } from '../../main/contract.ts'
import { bridge } from '../bridge.ts'
import { Shelf, type ShelfPiece } from '../empty/Shelf.tsx'
import { warmForecasting } from '../forecasting.ts'
import { Icon } from '../icons.tsx'
import { newPlan } from '../new-plan.ts'
import { dayOf, openDraft, openDropped, openPlan, putAwayDraft, startNew } from '../plan-files.ts'
import { readText } from '../plan-text.ts'
import { useProgram } from '../program.ts'

/** What shows while no plan is open: pieces to start from, plans to go on with, work that was not saved. */
export function EmptyPage(): ReactNode {
  const [pieces, setPieces] = useState<readonly ShelfPiece[]>([])
  const [recents, setRecents] = useState<readonly ListedPlan[]>([])
  useEffect(() => {
    let here = true
    const give =
      <T,>(set: (value: T) => void) =>
      (value: T): void => {
        if (here) set(value)
      }
    // without them the page still has New and Open
    const begun = painted().then(() => warmForecasting([newPlan(new Date())]))
    readShelf().then(
      (read) => {
        give(setPieces)(read)
        void begun.then(() => warmForecasting(read.map(({ plan }) => plan)))
      },
      () => undefined,
    )
    bridge.ask('listRecents', {}).then(
      ({ plans }) => give(setRecents)(plans),
      () => undefined,
    )
    return () => {
      here = false
    }
  }, [])
  return (
    <main className="empty-page">
      <section className="empty-shelf" aria-labelledby="shelf-heading">
        <h1 id="shelf-heading">Start from a piece like yours</h1>
        <Shelf pieces={pieces} />
      </section>
      <aside className="empty-side" aria-label="New and earlier plans">
        <button type="button" className="button button-first button-wide" onClick={() => void startNew()}>
          <Icon name="plus" />
          New plan
        </button>
        <button type="button" className="button button-wide" onClick={() => void openPlan()}>
          <Icon name="folder" />
          Open a plan
        </button>
        <DropPlace />
        <Recovered />
        <Recents plans={recents} />
      </aside>
    </main>
  )
}

/** Once the page is drawn: starting what computes would take the time of that. */
const painted = (): Promise<void> => new Promise((done) => requestAnimationFrame(() => setTimeout(done)))

async function readShelf(): Promise<ShelfPiece[]> {
  const { examples } = await bridge.ask('listExamples', {})
  const read = await Promise.all(
    examples.map(async ({ id, title }) => {
      const got = readText((await bridge.ask('readExample', { id })).text)
      return got.ok ? [{ id, title, plan: got.plan }] : []
    }),
  )
  return read.flat()
}

function DropPlace(): ReactNode {
  const input = useRef<HTMLInputElement>(null)
  return (
    <div className="drop-place">
      <Icon name="drop" />
      <b>Drop a plan</b>
      <span className="second">anywhere in this window, or</span>
      <button type="button" className="link" onClick={() => input.current?.click()}>
        choose a file
      </button>
      <input
        ref={input}
        type="file"
        hidden
        accept=".thickset,.json"
        onChange={(event) => {
          const [file] = event.target.files ?? []
          event.target.value = ''
          if (file !== undefined) void openDropped(file)
        }}
      />
    </div>
  )
}

function Recents({ plans }: { readonly plans: readonly ListedPlan[] }): ReactNode {
  if (plans.length === 0) return null
  return (
    <section aria-labelledby="recents-heading">
      <h2 id="recents-heading">Opened lately</h2>
      <ul className="choice-list">
        {plans.map(({ id, name, changedAt_ms }) => (
          <li key={id}>
            <button type="button" className="link" onClick={() => void openPlan(id)}>
              {name}
            </button>
            <span className="second">{dayOf(changedAt_ms)}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}

function Recovered(): ReactNode {
  const drafts = useProgram((state) => state.drafts)
  if (drafts.length === 0) return null
  return (
    <section className="recovered" aria-labelledby="recovered-heading">
      <h2 id="recovered-heading">Recovered, not yet saved</h2>
      {drafts.map(({ id, name, keptAt_ms }) => (
        <div key={id} className="recovered-draft">
          <p>
            {name}, changed {dayOf(keptAt_ms)} at{' '}
            {new Date(keptAt_ms).toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' })}.
          </p>
          <button type="button" className="button" onClick={() => void openDraft(id)}>
            Open it
          </button>
          <button type="button" className="button button-quiet" onClick={() => void putAwayDraft(id)}>
            Put away
          </button>
        </div>
      ))}
    </section>
  )
}
