import { portArrived, type ShellBridge } from '#model/contract/shell-bridge.ts'

declare global {
  interface Window {
    /** Present in the desktop shell only. */
    readonly bayledgerShell?: ShellBridge
  }
}

/** Asks the desktop shell for a port to the record and returns it, started. */
export function portFromShell(shell: ShellBridge): Promise<MessagePort> {
  return new Promise((resolve) => {
    const receive = (event: MessageEvent) => {
      const [port] = event.ports
      if (event.source !== window || event.data !== portArrived || port === undefined) return
      window.removeEventListener('message', receive)
      port.start()
      resolve(port)
    }
    window.addEventListener('message', receive)
    shell.connect()
  })
}
