import { spawn } from 'node:child_process'
import { root } from '../root.ts'

export interface DemoHost {
  /** The full address with its token. */
  url: string
  stop: () => Promise<unknown>
}

/** Starts the demonstration for a browser that the caller drives; resolves when its address is there. */
export async function startDemoHost(): Promise<DemoHost> {
  const words = ['scripts/start.ts', '--browser', '--no-open', '--demo']
  const child = spawn(process.execPath, words, { cwd: root, stdio: ['ignore', 'pipe', 'inherit'] })
  const ended = new Promise((resolve) => child.once('exit', resolve))
  const url = await new Promise<string>((resolve, reject) => {
    let out = ''
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text
      const address = /^Bayledger at (\S+)$/m.exec(out)?.[1]
      if (address !== undefined) resolve(address)
    })
    void ended.then(() => reject(new Error('Bayledger ended before it had an address.')))
  })
  return {
    url,
    stop: () => {
      child.kill('SIGINT')
      return ended
    },
  }
}
