import { contextBridge, type IpcRendererEvent, ipcRenderer, webUtils } from 'electron'
import type { Channel, HostEvent, Preloaded } from './contract.ts'

// Runs sandboxed before the page: small, no other module at run time. A test holds this list equal to the contract's.
const channels: readonly Channel[] = [
  'ready',
  'beat',
  'listPlans',
  'openPlan',
  'savePlan',
  'savePlanAs',
  'listRecents',
  'forgetRecent',
  'listExamples',
  'readExample',
  'keepDraft',
  'dropDraft',
  'readDraft',
  'putAwayDraft',
  'readSettings',
  'writeSettings',
  'readMeasured',
  'keepMeasured',
  'forgetMeasured',
  'exportFile',
  'print',
  'saveSheet',
  'markUnsaved',
  'leave',
]

const preloaded: Preloaded = {
  ask: (channel, request) =>
    channels.includes(channel)
      ? ipcRenderer.invoke(channel, request)
      : Promise.resolve({ ok: false, message: 'There is no such call.' }),
  openDropped: (file) => ipcRenderer.invoke('dropped-file', webUtils.getPathForFile(file)),
  listen: (hear) => {
    const pass = (_event: IpcRendererEvent, told: HostEvent): void => hear(told)
    ipcRenderer.on('host-event', pass)
    return () => {
      ipcRenderer.removeListener('host-event', pass)
    }
  },
}

contextBridge.exposeInMainWorld('thickset', preloaded)
