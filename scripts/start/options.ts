import { parseArgs } from 'node:util'

export interface StartOptions {
  /** Use the browser even where the desktop shell could run. */
  browser: boolean
  open: boolean
  /** 0 takes a free one. */
  port: number
  data: string | null
  demo: boolean
  help: boolean
}

/** What was typed after the command cannot be followed. The message is one sentence. */
export class BadOption extends Error {}

export const usage = `Usage: npm start -- [options]

  --browser     use the browser, not the desktop shell
  --no-open     open nothing; print the address
  --port N      port of the address (default: a free one)
  --data DIR    folder of the record (default: this system's folder for data of applications)
  --demo        an invented site in a temporary folder; what you enter is gone when it stops
  --help        this text
`

/** Reads the options of the start command. @throws BadOption with a sentence that names the option. */
export function readOptions(words: readonly string[]): StartOptions {
  const { tokens } = parseArgs({
    args: [...words],
    options: known,
    strict: false,
    tokens: true,
    allowPositionals: true,
  })
  const options: StartOptions = { browser: false, open: true, port: 0, data: null, demo: false, help: false }
  for (const token of tokens) {
    if (token.kind === 'option-terminator') continue
    if (token.kind === 'positional')
      throw new BadOption(`“${token.value}” is not an option; --help lists them.`)
    follow(options, token.rawName, token.value)
  }
  if (options.demo && options.data !== null) {
    throw new BadOption('--demo has its own temporary folder; leave out either --demo or --data.')
  }
  return options
}

const known = {
  browser: { type: 'boolean' },
  'no-open': { type: 'boolean' },
  port: { type: 'string' },
  data: { type: 'string' },
  demo: { type: 'boolean' },
  help: { type: 'boolean' },
} as const

function follow(options: StartOptions, name: string, value: string | undefined): void {
  if (name === '--port') options.port = portFrom(value)
  else if (name === '--data') options.data = folderFrom(value)
  else if (name in switches) {
    if (value !== undefined) throw new BadOption(`${name} takes no value; leave out “=${value}”.`)
    switches[name as keyof typeof switches](options)
  } else throw new BadOption(`“${name}” is not an option; --help lists them.`)
}

const switches = {
  '--browser': (options: StartOptions) => {
    options.browser = true
  },
  '--no-open': (options: StartOptions) => {
    options.open = false
  },
  '--demo': (options: StartOptions) => {
    options.demo = true
  },
  '--help': (options: StartOptions) => {
    options.help = true
  },
}

function portFrom(value: string | undefined): number {
  const port = Number(value)
  if (value !== undefined && /^\d+$/.test(value) && port <= 65_535) return port
  throw new BadOption(`--port needs a number from 0 to 65535, not “${value ?? ''}”.`)
}

function folderFrom(value: string | undefined): string {
  if (value !== undefined && value !== '' && !value.startsWith('--')) return value
  throw new BadOption('--data needs a folder, such as --data ./site-record.')
}
