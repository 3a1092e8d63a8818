import { basename, dirname, extname } from 'node:path'
import { app, type BrowserWindow, dialog } from 'electron'
import type { HostEvent } from './contract.ts'
import { PLAN_ENDING } from './file-name.ts'
import type { WindowShell } from './handlers.ts'
import { freePlaceIn, placeIn } from './plan-files.ts'
import { Refusal } from './refusal.ts'

const KINDS: Readonly<Record<string, string>> = {
  [PLAN_ENDING]: 'Thickset plan',
  '.csv': 'Table (CSV)',
  '.png': 'Picture (PNG)',
  '.svg': 'Drawing (SVG)',
  '.ics': 'Calendar',
  '.pdf': 'PDF',
  '.json': 'JSON',
}

/** What the program's own window can do: dialogs, printing, and the question on closing. */
export function makeWindowShell(window: BrowserWindow, platform: NodeJS.Platform): WindowShell {
  let folder = app.getPath('documents')
  let work = { unsaved: false, name: '' }
  let mayClose = false
  let asking = false

  const tell = (event: HostEvent): void => window.webContents.send('host-event', event)
  const close = (): void => {
    mayClose = true
    window.close()
  }

  /** Close without saving loses nothing: the draft stays and is offered at the next start. */
  const askOnClosing = async (): Promise<void> => {
    asking = true
    try {
      const { response } = await dialog.showMessageBox(window, {
        type: 'question',
        message: `"${work.name}" has changes that are not saved.`,
        detail: 'If you close without saving, they are kept and offered at the next start.',
        buttons: ['Save', 'Close without saving', 'Keep editing'],
        defaultId: 0,
        cancelId: 2,
        noLink: true,
      })
      if (response === 0) tell({ kind: 'save-asked' })
      if (response === 1) close()
    } finally {
      asking = false
    }
  }
  window.on('close', (event) => {
    if (!work.unsaved || mayClose) return
    event.preventDefault()
    if (!asking) askOnClosing().catch((error: unknown) => tell({ kind: 'failed', message: String(error) }))
  })

  return {
    program: 'window',

    choosePlan: async () => {
      const { canceled, filePaths } = await dialog.showOpenDialog(window, {
        title: 'Open a plan',
        defaultPath: folder,
        properties: ['openFile'],
        filters: [
          { name: 'Thickset plan', extensions: ['thickset', 'json'] },
          { name: 'All files', extensions: ['*'] },
        ],
      })
      const path = filePaths[0]
      if (canceled || path === undefined) return null
      folder = dirname(path)
      return path
    },

    choosePlace: async (name, ending) => {
      const { canceled, filePath } = await dialog.showSaveDialog(window, {
        title: ending === PLAN_ENDING ? 'Save plan' : 'Export',
        defaultPath: placeIn(folder, name, ending),
        properties: ['showOverwriteConfirmation', 'createDirectory'],
        filters: [{ name: KINDS[ending] ?? ending, extensions: [ending.slice(1)] }],
      })
      if (canceled || !filePath) return null
      folder = dirname(filePath)
      if (extname(filePath).toLowerCase() === ending) return filePath
      // Not every system adds the ending; what is then there was not shown to the person, so it is not replaced.
      return freePlaceIn(folder, basename(filePath), ending)
    },

    print: () =>
      new Promise((done, failed) => {
        window.webContents.print({ printBackground: true }, (success, reason) =>
          success || /cancel/i.test(reason) ? done() : failed(new Refusal(`Printing failed: ${reason}`)),
        )
      }),

    markUnsaved: (unsaved, name) => {
      work = { unsaved, name }
      window.setTitle(`${unsaved && platform !== 'darwin' ? '• ' : ''}${name} – Thickset`)
      window.setDocumentEdited(unsaved)
    },

    noteRecent: (path) => app.addRecentDocument(path),

    leave: () => {
      if (!work.unsaved) close()
    },
  }
}
