import { spawn } from 'node:child_process'
import { root } from '../root.ts'
import type { ChosenData } from './data.ts'
import type { StartOptions } from './options.ts'

/** Runs the desktop shell and resolves to its exit code. */
export function runInShell(binary: string, options: StartOptions, data: ChosenData): Promise<number> {
  const environment = { ...process.env, BAYLEDGER_DATA: data.path, BAYLEDGER_DEMO: options.demo ? '1' : '0' }
  return new Promise((resolve, reject) => {
    const child = spawn(binary, [root], { stdio: 'inherit', env: environment })
    child.once('error', reject)
    child.once('exit', (code) => resolve(code ?? 1))
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => child.kill(signal))
  })
}
