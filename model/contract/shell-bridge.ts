/** The one object that the desktop shell puts into the page. It hands over a port and can do nothing else. */
export interface ShellBridge {
  /** Asks the shell for a port. It arrives as a window message whose data is `portArrived`. */
  connect: () => void
}

/** Data of the window message that carries the port from the preload script to the page. */
export const portArrived = 'bayledger:port'

/** The request header that carries a file's name, percent-encoded, to `POST /upload`. */
export const fileNameHeader = 'x-file-name'
