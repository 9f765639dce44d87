import { spawn } from 'node:child_process'
import { root } from '#scripts/root.ts'

export interface Started {
  /** The full address with the token. */
  url: string
  origin: string
  pid: number
  /** All that was printed so far. */
  printed: () => { out: string; err: string }
  /** Sends Ctrl-C and resolves to the exit code. */
  stop: () => Promise<number | null>
  /** Ends it as a power cut would. */
  kill: () => Promise<void>
}

interface StartWith {
  data?: string
  words?: readonly string[]
  command?: readonly [string, ...string[]]
  environment?: NodeJS.ProcessEnv
  /** Ctrl-C in a terminal reaches every process of the command, not only the first. */
  asGroup?: boolean
}

const addressLine = /^Bayledger at (http:\/\/127\.0\.0\.1:\d+\/#token=[\w-]+)$/m
const patienceMs = 120_000

/** Starts Bayledger as a person does and waits for the address it prints. */
export async function startBayledger(options: StartWith = {}): Promise<Started> {
  const { data, words = ['--browser', '--no-open'], environment = process.env, asGroup = false } = options
  const [program, ...before] = options.command ?? [process.execPath, 'scripts/start.ts']
  const folder = data === undefined ? [] : ['--data', data]
  const child = spawn(program, [...before, ...words, ...folder], {
    cwd: root,
    env: environment,
    stdio: ['ignore', 'pipe', 'pipe'],
    detached: asGroup,
  })
  let out = ''
  let err = ''
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text
  })
  const exited = new Promise<number | null>((resolve) => child.once('exit', resolve))
  const url = await new Promise<string>((resolve, reject) => {
    const tooLong = setTimeout(
      () => reject(new Error(`No address after ${patienceMs} ms.\n${out}${err}`)),
      patienceMs,
    )
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text
      const address = addressLine.exec(out)?.[1]
      if (address === undefined) return
      clearTimeout(tooLong)
      resolve(address)
    })
    child.once('exit', (code) => {
      clearTimeout(tooLong)
      reject(new Error(`Bayledger ended with code ${code} before it had an address.\n${out}${err}`))
    })
  })
  return {
    url,
    origin: new URL(url).origin,
    pid: child.pid ?? 0,
    printed: () => ({ out, err }),
    stop: () => {
      if (asGroup && child.pid !== undefined) process.kill(-child.pid, 'SIGINT')
      else child.kill('SIGINT')
      return exited
    },
    kill: async () => {
      child.kill('SIGKILL')
      await exited
    },
  }
}
