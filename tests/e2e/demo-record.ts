import { cpSync, existsSync, mkdirSync, renameSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** All workers of one run share it: they have the same parent. */
const folder = join(tmpdir(), `bayledger-e2e-demo-of-${process.env.BAYLEDGER_E2E_RUN}`)

/** The demonstration's record, made when a test first asks for it and once a run. */
export async function demoRecord(): Promise<string> {
  const file = join(folder, 'record.sqlite')
  if (existsSync(file)) return file
  const { makeDemo } = await import('#scripts/demo/make.ts')
  const building = join(folder, `building-${process.pid}`, 'record.sqlite')
  mkdirSync(join(building, '..'), { recursive: true })
  await makeDemo(building, { now: Date.now() })
  // Photos lie beside the record; another worker may have put its own there already, and none is in the way of another.
  cpSync(join(building, '..', 'photos'), join(folder, 'photos'), { recursive: true })
  renameSync(building, file)
  return file
}

export function forgetDemoRecord(): void {
  rmSync(folder, { recursive: true, force: true })
}
