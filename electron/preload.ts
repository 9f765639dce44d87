import { contextBridge, ipcRenderer } from 'electron'
import { portArrived, type ShellBridge } from '#model/contract/shell-bridge.ts'
import { connectChannel } from './shell/channels.ts'

/** One object with one function: it hands a port to the page and its other end to the main process. */
const bridge: ShellBridge = Object.freeze({
  connect: () => {
    const { port1, port2 } = new MessageChannel()
    ipcRenderer.postMessage(connectChannel, null, [port1])
    // "/" means: to this page's own origin only.
    window.postMessage(portArrived, '/', [port2])
  },
})

contextBridge.exposeInMainWorld('bayledgerShell', bridge)
