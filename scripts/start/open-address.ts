import { spawn } from 'node:child_process'

const openers: Partial<Record<NodeJS.Platform, readonly [string, ...string[]]>> = {
  darwin: ['open'],
  win32: ['rundll32', 'url.dll,FileProtocolHandler'],
  linux: ['xdg-open'],
}

/** Opens an address in the system's browser. Resolves to false when there is none; the address was printed anyway. */
export function openAddress(address: string): Promise<boolean> {
  const [program, ...words] = openers[process.platform] ?? ['xdg-open']
  return new Promise((resolve) => {
    const child = spawn(program, [...words, address], { stdio: 'ignore', detached: true })
    child.once('error', () => resolve(false))
    child.once('spawn', () => {
      child.unref()
      resolve(true)
    })
  })
}
